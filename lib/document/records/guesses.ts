import type { Certainty } from "@/lib/hearing/Hearing";
import type { Comparison } from "@/lib/lesson/Comparison";
import type { LaneValue } from "@/lib/lesson/GuessValue";
import type { EpochMs, Seconds } from "@/lib/units/quantities";

/** The map of guesses, laid out as a kind's. */
export const GUESSES = "guess";
/** After it stands the person who made the guess. */
export const MADE_PREFIX = "made.";
/** After it stands the person who made the guess, and uncovered the answer. */
export const TOLD_PREFIX = "told.";

/** A guess as it is written, once (rule D46). */
export type KeptGuess = LaneValue & {
  atMs: EpochMs;
  /** Id of the study, or `WHOLE_SONG`. */
  target: string;
  /** Of a place, the id of the part in which it is guessed; left out for the first, as by older versions (rule D46). */
  part?: string | undefined;
  startSec: Seconds;
  endSec: Seconds;
  /** How it read against the record when it was made; null where that was not told. */
  fit: Certainty | null;
  /** How many hints had been taken there. */
  hintCount: number;
};

/** How a guess compared when its maker uncovered the answer, written once (rule D47). */
export interface KeptOutcome {
  atMs: EpochMs;
  comparison: Comparison;
  /** What stood there then, in the lane's own form; null where nothing did. */
  answer: LaneValue["value"] | null;
}

/** A guess as everyone sees it. */
export type ShownGuess = KeptGuess & {
  id: string;
  by: string;
  /** Null as long as its maker has not uncovered the answer. */
  outcome: KeptOutcome | null;
};
