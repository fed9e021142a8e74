import type { Hertz } from "@/lib/units/quantities";

/** Mono samples that can be read from anywhere. Before and after them is silence. */
export interface ReadableSignal {
  readonly sampleRateHz: Hertz;
  /** In samples. */
  readonly length: number;
  /** Fills `into` with the samples from `start` on, which may be negative. */
  read(start: number, into: Float32Array): Float32Array;
}
