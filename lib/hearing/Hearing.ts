import type { Mode } from "@/lib/theory/key";
import type { Cents, Seconds } from "@/lib/units/quantities";

/** How sure the ear is, 0 (a guess) to 1 (certain). */
export type Certainty = number;

/** One beat of the grid the ear found. */
export interface HeardBeat {
  timeSec: Seconds;
  /** Position in the bar, 1 = downbeat. */
  inBar: number;
}

/** The beat grid over the whole record. */
export interface HeardGrid {
  beats: HeardBeat[];
  /** Beats a minute over the record, median of the beat intervals. */
  tempoBpm: number;
  /** Beats to the bar: 2, 3, 4 or 6. */
  beatsPerBar: number;
  confidence: Certainty;
}

/** The key ("home") over a stretch of the record. */
export interface HeardHome {
  startSec: Seconds;
  endSec: Seconds;
  /** Spelled tonic: letter and at most one accidental, as in `Eb`, `F#`. */
  tonic: string;
  mode: Mode;
  confidence: Certainty;
}

/** One chord change: a stretch with one chord. */
export interface HeardChord {
  startSec: Seconds;
  endSec: Seconds;
  /** Harte syntax (Harte et al., ISMIR 2005): `G:maj`, `D:7`, `A:min/b3`, `N` for none. */
  label: string;
  confidence: Certainty;
}

/** Everything the ear says about a record. All times are seconds of the record. */
export interface Hearing {
  /** Name and number of the method, so that stored results can be told apart. */
  version: string;
  durationSec: Seconds;
  /** How far the record stands from A4 = 440 Hz, -50 to +50. */
  tuningCents: Cents;
  tuningConfidence: Certainty;
  grid: HeardGrid;
  /** At least one; in order, without gaps. */
  homes: HeardHome[];
  /** In order, without overlap. */
  chords: HeardChord[];
}

/** The steps of hearing, in order; progress names one of these. */
export const HEARING_STEPS = ["tuning", "beats", "changes", "home"] as const;
export type HearingStep = (typeof HEARING_STEPS)[number];

/** Called as the ear works: which step, and how far through that step (0 to 1). */
export type HearingProgress = (step: HearingStep, fraction: number) => void;
