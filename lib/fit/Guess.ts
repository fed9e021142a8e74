import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";

/** A note of a guess that moves on while it rings. */
export interface GuessedGlide {
  toMidi: Midi;
  /** Middle of the way, seconds of the record. */
  atSec: Seconds;
  durationSec: Seconds;
}

/** One note of a guess, at the pitch it begins with, in whole semitones of the record's own tuning. */
export interface GuessedNote {
  midi: Midi;
  /** In order of time. */
  glides?: readonly GuessedGlide[];
}

/** What somebody takes a passage of a record for. */
export type Guess =
  /** What one player plays there, together: from one note to some, with their glides. */
  | { kind: "notes"; notes: readonly GuessedNote[] }
  /** A chord, as a Harte label. */
  | { kind: "chord"; label: string }
  | { kind: "key"; key: Key };
