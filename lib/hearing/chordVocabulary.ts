import { SHORTHAND_DEGREES, type Shorthand } from "@/lib/theory/harte";
import { degreeToSemitones } from "@/lib/theory/interval";
import type { PitchClass, Semitones } from "@/lib/units/quantities";
import { VOCABULARY } from "./harmonyParameters";

/** A quality that the ear tells apart. */
export interface ChordType {
  quality: Shorthand;
  /** Of its notes above the root, in the order root, third (or fourth), fifth, seventh. */
  semitones: Semitones[];
  /** Harte degree of each of those notes, as in `b3`. */
  degrees: readonly string[];
  /** Natural log of how common the quality is, before any key is known. */
  logPrior: number;
}

/** A chord of the vocabulary, or none. */
export interface ChordState {
  /** Null: no chord. */
  chord: { root: PitchClass; type: ChordType } | null;
}

export const CHORD_TYPES: readonly ChordType[] = VOCABULARY.qualities.map(({ quality, logPrior }) => {
  const degrees = SHORTHAND_DEGREES[quality];
  return { quality, degrees, semitones: degrees.map((degree) => degreeToSemitones(degree) ?? 0), logPrior };
});

/** All states of the chord model: no chord first, then each quality on each root. */
export const CHORD_STATES: readonly ChordState[] = [
  { chord: null },
  ...CHORD_TYPES.flatMap((type) => Array.from({ length: 12 }, (_, root) => ({ chord: { root, type } }))),
];
