import { precisionRecall } from "./metrics/matching";
import { matchNotes, type TimedNote } from "./metrics/noteMatching";
import type { ReferenceNote } from "./metrics/noteScore";

/**
 * The bass line over the whole record, by mir_eval's rule for notes (onset within 50 ms, pitch within 50 cents, ends
 * not counted), and with octaves told alike.
 * @returns nothing where the item has no bass
 */
export function scoreBass(
  reference: readonly ReferenceNote[],
  bass: readonly TimedNote[],
): { bassNoteP?: number; bassNoteR?: number; bassNoteF?: number; bassNoteFOctaveFree?: number } {
  const wanted = reference.filter(({ role }) => role === "bass");
  if (wanted.length === 0) return {};
  const score = (a: readonly TimedNote[], b: readonly TimedNote[]) =>
    precisionRecall(matchNotes(a, b).filter((match) => match >= 0).length, a.length, b.length);
  const exact = score(wanted, bass);
  return {
    bassNoteP: exact.precision,
    bassNoteR: exact.recall,
    bassNoteF: exact.f,
    bassNoteFOctaveFree: score(wanted.map(inOneOctave), bass.map(inOneOctave)).f,
  };
}

/** Pitch class and cents, so that only these are compared; the seam lies where no note of a scale is. */
function inOneOctave<T extends TimedNote>(note: T): T {
  return { ...note, midi: (((note.midi + 0.5) % 12) + 12) % 12 };
}
