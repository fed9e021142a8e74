import type { ReadableSignal } from "./ReadableSignal";
import type { Signal } from "./Signal";

/** Sound by what its channels share and what tells two of them apart, both at one level. */
export interface StereoSignal {
  /** The average of all channels. */
  signal: Signal;
  /** Half of what the left channel has more than the right one; null where that is as good as nothing. */
  side: ReadableSignal | null;
}
