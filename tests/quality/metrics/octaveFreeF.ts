import { precisionRecall } from "@/lib/scoring/matching";
import { matchNotes, type TimedNote } from "@/lib/scoring/noteMatching";

/** F of notes by mir_eval's rule for onsets and pitches (ends not counted), octaves told alike. */
export function octaveFreeF(reference: readonly TimedNote[], estimate: readonly TimedNote[]): number {
  const matches = matchNotes(reference.map(inOneOctave), estimate.map(inOneOctave));
  const hits = matches.filter((match) => match >= 0).length;
  return precisionRecall(hits, reference.length, estimate.length).f;
}

/** Pitch class with its cents; the seam lies half a semitone under C, where no note of a scale is. */
function inOneOctave<T extends TimedNote>(note: T): T {
  return { ...note, midi: (((note.midi + 0.5) % 12) + 12) % 12 };
}
