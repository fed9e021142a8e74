import { largestMatching } from "./matching";

export interface TimedNote {
  startSec: number;
  endSec: number;
  /** May be fractional. */
  midi: number;
}

/** mir_eval.transcription: onsets within 50 ms, pitches within half a semitone. */
export const ONSET_WINDOW_SEC = 0.05;
export const PITCH_WINDOW_CENTS = 50;
/** The arrival of a slide has no sharp beginning. */
export const SLIDE_WINDOW_SEC = 0.15;

/** For each estimate the reference it matches, or -1. Onsets are compared to the tenth of a millisecond, as mir_eval does. */
export function matchNotes(
  reference: readonly TimedNote[],
  estimate: readonly TimedNote[],
  windowSec: number = ONSET_WINDOW_SEC,
): number[] {
  const candidates = reference.map((wanted) =>
    estimate.flatMap((given, j) => {
      const apartSec = Math.round(Math.abs(given.startSec - wanted.startSec) * 1e4) / 1e4;
      const apartCents = Math.abs(given.midi - wanted.midi) * 100;
      return apartSec <= windowSec && apartCents <= PITCH_WINDOW_CENTS + 1e-9 ? [j] : [];
    }),
  );
  return largestMatching(candidates, estimate.length);
}
