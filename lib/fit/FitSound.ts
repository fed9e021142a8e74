import type { ReadableSignal } from "@/lib/dsp/ReadableSignal";

/** A record, or a stretch of one, as guesses are held against it: at the ear's rate and level. */
export interface FitSound {
  /** What the channels share. */
  signal: ReadableSignal;
  /** Half of what the left channel has more than the right one; null where there is as good as none. */
  side: ReadableSignal | null;
}
