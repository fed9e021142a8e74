import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { sameMembers } from "@/lib/instrument/sameMembers";
import type { Midi } from "@/lib/units/quantities";
import type { Comparison } from "./Comparison";
import { compareNotes } from "./compareNotes";
import type { GuessedPlace } from "./GuessValue";

/** The pitches that a place gives, of the strings that give one. @throws UnknownChangeError on an id that the copedent lacks */
export function pitchesOf({ strings, fret, changes }: GuessedPlace, copedent: Copedent): Midi[] {
  return strings
    .map((string) => effectiveMidi(copedent, string, fret, changes))
    .filter((midi) => midi !== null);
}

/**
 * How a guessed place stands to the answer on the same copedent.
 * @param sounding the pitches of the answer, where its strings lie at frets of their own
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function comparePlaces(
  guess: GuessedPlace,
  answer: GuessedPlace,
  copedent: Copedent,
  sounding: readonly Midi[] = pitchesOf(answer, copedent),
): Comparison {
  const isSameStrings = sameMembers(guess.strings, answer.strings);
  const isSamePedals = sameMembers(guess.changes, answer.changes);
  const isSameFret = guess.fret === answer.fret;
  const guessed = pitchesOf(guess, copedent);
  const notes = guessed.length > 0 && sounding.length > 0 ? compareNotes(guessed, sounding) : "other";
  if (isSameStrings && isSamePedals && isSameFret) return notes === "same" ? "same" : "fret";
  if (notes === "same") return "string";
  if (isSameStrings && isSamePedals) return "fret";
  if (isSameStrings && isSameFret) return "pedals";
  return notes === "octave" ? "octave" : "other";
}
