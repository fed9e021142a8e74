import type { Midi, Seconds, Semitones } from "@/lib/units/quantities";

/** Notes that begin so near each other, in time and in pitch, are one: as transcriptions are commonly scored. */
const SAME_SEC: Seconds = 0.05;
const SAME_SEMITONES: Semitones = 0.5;
/** Distances that differ by rounding only are one distance. */
const ROUNDING = 1e-9;

export function beginTogether(oneSec: Seconds, otherSec: Seconds): boolean {
  return Math.abs(oneSec - otherSec) <= SAME_SEC + ROUNDING;
}

/** Whether two notes that begin together say the same. */
export function isSamePitch(one: Midi, other: Midi): boolean {
  return Math.abs(one - other) <= SAME_SEMITONES + ROUNDING;
}
