import { type ChordCode, encodeChord, NO_SEMITONES, QUALITIES } from "./harteEncoding";

/** How alike two chords must be to count as right (mir_eval.chord; MIREX audio chord estimation). */
export const CHORD_METRICS = [
  "root",
  "thirds",
  "thirds_inv",
  "triads",
  "triads_inv",
  "tetrads",
  "tetrads_inv",
  "majmin",
  "majmin_inv",
  "sevenths",
  "sevenths_inv",
  "mirex",
] as const;
export type ChordMetric = (typeof CHORD_METRICS)[number];

/** True or false; null where the reference lies outside of what the metric speaks about. */
export type ChordVerdict = Record<ChordMetric, boolean | null>;

function equal(a: readonly number[], b: readonly number[], upTo = 12): boolean {
  for (let i = 0; i < upTo; i++) if (a[i] !== b[i]) return false;
  return true;
}

const SEVENTHS = [
  QUALITIES.maj,
  QUALITIES.min,
  QUALITIES.maj7,
  QUALITIES["7"],
  QUALITIES.min7,
  NO_SEMITONES,
] as const;
/** Root to fifth: what a triad lies within. */
const TRIAD_SPAN = 8;
/** MIREX 2009: chords that share three notes are taken as the same. */
const MIREX_SHARED = 3;

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function mirex(reference: ChordCode, estimate: ChordCode): boolean | null {
  if (reference.root < 0) return estimate.root < 0 && !estimate.semitones.some((x) => x < 0);
  if (sum(reference.semitones) < MIREX_SHARED) return null;
  if (estimate.root < 0) return false;
  const at = (chord: ChordCode, pitchClass: number) => chord.semitones[(pitchClass - chord.root + 12) % 12]!;
  let shared = 0;
  for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
    shared += at(reference, pitchClass) * at(estimate, pitchClass);
  }
  return shared >= MIREX_SHARED;
}

function verdictOf(reference: ChordCode, estimate: ChordCode): ChordVerdict {
  const unknown = reference.semitones.some((x) => x < 0);
  const root = reference.root === estimate.root;
  const bass = reference.bass === estimate.bass;
  const third = root && reference.semitones[3] === estimate.semitones[3];
  const triad = root && equal(reference.semitones, estimate.semitones, TRIAD_SPAN);
  const tetrad = root && equal(reference.semitones, estimate.semitones);
  const isMajMin =
    (reference.root < 0 && !unknown) ||
    equal(reference.semitones, QUALITIES.maj, TRIAD_SPAN) ||
    equal(reference.semitones, QUALITIES.min, TRIAD_SPAN);
  const isSeventh = SEVENTHS.some((quality) => equal(reference.semitones, quality));
  const bassIsSounding = reference.root < 0 || reference.semitones[reference.bass] === 1;
  const known = (right: boolean) => (unknown ? null : right);
  return {
    root: known(root),
    thirds: known(third),
    thirds_inv: known(third && bass),
    triads: known(triad),
    triads_inv: known(triad && bass),
    tetrads: known(tetrad),
    tetrads_inv: known(tetrad && bass),
    majmin: isMajMin ? triad : null,
    majmin_inv: isMajMin ? triad && bass : null,
    sevenths: isSeventh ? tetrad : null,
    sevenths_inv: isSeventh && bassIsSounding ? tetrad && bass : null,
    mirex: unknown ? null : mirex(reference, estimate),
  };
}

/**
 * Compares two labels under every metric.
 * @throws {RangeError} for a label outside of Harte syntax
 */
export function compareChords(reference: string, estimate: string): ChordVerdict {
  return verdictOf(encodeChord(reference), encodeChord(estimate));
}
