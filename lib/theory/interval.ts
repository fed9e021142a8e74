import type { Semitones } from "@/lib/units/quantities";

/** Semitones of the major scale's degrees 1 to 7 above its tonic. */
export const MAJOR_SCALE_SEMITONES: readonly Semitones[] = [0, 2, 4, 5, 7, 9, 11];

/**
 * Semitones of an interval written as a degree of the major scale with accidentals: `3` = 4, `b7` = 10,
 * `bb7` = 9, `#11` = 18; degrees 1 to 13. Null when the text is no such interval.
 */
export function degreeToSemitones(text: string): Semitones | null {
  const match = /^(b{0,2}|#{0,2})(1[0-3]|[1-9])$/.exec(text);
  if (match === null) return null;
  const accidentals = match[1] ?? "";
  const degree = Number(match[2]);
  const plain = MAJOR_SCALE_SEMITONES[(degree - 1) % 7] ?? 0;
  const alteration = accidentals.startsWith("b") ? -accidentals.length : accidentals.length;
  return plain + 12 * Math.floor((degree - 1) / 7) + alteration;
}
