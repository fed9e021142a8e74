import { withinOctave } from "@/lib/units/pitch";
import type { Semitones } from "@/lib/units/quantities";
import { turned } from "./chordMoves";
import { CHORD_STATES } from "./chordVocabulary";
import { REPEATS } from "./harmonyParameters";
import type { BassChances } from "./inversion";

/** One of several stretches that play the same thing. */
export interface RepeatedStretch {
  /** Number of the stretch. */
  stretch: number;
  /** How far it lies above the first of them. */
  semitones: Semitones;
  /** Whether it takes from the others what is heard there; if not, it only gives. */
  takes: boolean;
}

/**
 * Stretches that play the same share what is heard in them: each that takes keeps a part of its own evidence and has
 * the rest from the mean over all, in its own key (M. Mauch, K. Noland and S. Dixon, "Using musical structure to enhance
 * automatic chord transcription", ISMIR 2009, who average their chroma).
 * @param likelihoods log-likelihood of each of CHORD_STATES in each stretch; left as they are
 * @param groups stretches that play the same, each stretch in one group at most
 * @throws RangeError where a stretch is none of those, or stands in two groups
 */
export function sharedLikelihoods(
  likelihoods: readonly Float64Array[],
  groups: readonly (readonly RepeatedStretch[])[],
): Float64Array[] {
  return shared(likelihoods, groups, CHORD_STATES.length, turned);
}

/** The same of what lies in the bass. */
export function sharedBass(
  bass: readonly BassChances[],
  groups: readonly (readonly RepeatedStretch[])[],
): BassChances[] {
  return shared(bass, groups, 13, (place, semitones) =>
    place === 12 ? 12 : withinOctave(place + semitones),
  );
}

function shared(
  rows: readonly Float64Array[],
  groups: readonly (readonly RepeatedStretch[])[],
  width: number,
  turn: (place: number, semitones: Semitones) => number,
): Float64Array[] {
  const result = [...rows];
  const seen = new Set<number>();
  for (const group of groups) {
    const mean = new Float64Array(width);
    for (const { stretch, semitones } of group) {
      const row = rows[stretch];
      if (!row) throw new RangeError(`There is no stretch ${stretch} of ${rows.length}.`);
      if (seen.has(stretch)) throw new RangeError(`Stretch ${stretch} stands in two groups.`);
      seen.add(stretch);
      for (let s = 0; s < width; s++) mean[s]! += row[turn(s, semitones)]! / group.length;
    }
    for (const { stretch, semitones, takes } of group) {
      if (!takes) continue;
      const own = rows[stretch]!;
      result[stretch] = own.map(
        (value, s) => (1 - REPEATS.share) * value + REPEATS.share * mean[turn(s, -semitones)]!,
      );
    }
  }
  return result;
}
