import type { Hertz } from "@/lib/units/quantities";

/** A stretch of a record as sound, at the ear's rate and the record's own level. */
export interface RecordStretch {
  sampleRateHz: Hertz;
  /** Frames of the record before it, at that rate. */
  startFrame: number;
  /** Root-mean-square level of the whole record's average of both channels, full scale 1. */
  level: number;
  /** The same of what tells the channels apart. */
  sideLevel: number;
  /** The average of both channels. */
  mid: Float32Array<ArrayBuffer>;
  /** Half of what the left channel has more than the right one; null where the record is mono. */
  side: Float32Array<ArrayBuffer> | null;
}

/** What two channels share and what tells them apart; one channel is all shared. */
export function midAndSide([left, right]: readonly Float32Array<ArrayBuffer>[]): Pick<
  RecordStretch,
  "mid" | "side"
> {
  if (!left) throw new RangeError("A record has at least one channel.");
  if (!right) return { mid: left, side: null };
  const mid = new Float32Array(left.length);
  const side = new Float32Array(left.length);
  for (let i = 0; i < left.length; i++) {
    mid[i] = (left[i]! + right[i]!) / 2;
    side[i] = (left[i]! - right[i]!) / 2;
  }
  return { mid, side };
}
