import { sameMembers } from "@/lib/instrument/sameMembers";
import { type Chord, parseHarte } from "@/lib/theory/harte";
import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import type { Comparison } from "./Comparison";

/** Semitones above a root at which its third lies, small or large. */
const THIRDS = [3, 4];
const FIFTHS = [6, 7, 8];

/**
 * How a guessed chord stands to the answer, most telling first.
 * @throws HarteError on a label that cannot be read
 */
export function compareChords(guess: string, answer: string): Comparison {
  const [guessed, right] = [parseHarte(guess), parseHarte(answer)];
  if (!guessed || !right) return guessed === right ? "same" : "other";
  const isSameSound = sameMembers(guessed.pitchClasses, right.pitchClasses);
  const isSameBass = guessed.bassPitchClass === right.bassPitchClass;
  if (guessed.rootPitchClass === right.rootPitchClass) {
    if (isSameSound && isSameBass) return guessed.rootName === right.rootName ? "same" : "enharmonic";
    if (isSameSound) return "bass";
    return sameMembers(triadOf(guessed), triadOf(right)) ? "added" : "kind";
  }
  if (isSameSound) return "sameNotes";
  if (isRelative(guessed, right) || isRelative(right, guessed)) return "relative";
  const above = withinOctave(guessed.rootPitchClass - right.rootPitchClass);
  return above === 7 || above === 5 ? "fifth" : "other";
}

/** Whether the third above the root is small, large, or wanting. */
export function thirdOf({ rootPitchClass, pitchClasses }: Chord): "minor" | "major" | "neither" {
  const has = (semitones: number) => pitchClasses.includes(withinOctave(rootPitchClass + semitones));
  return has(4) ? "major" : has(3) ? "minor" : "neither";
}

/** Root, third and fifth, as far as the chord has them. */
function triadOf({ rootPitchClass, pitchClasses }: Chord): PitchClass[] {
  return pitchClasses.filter((each) => {
    const above = withinOctave(each - rootPitchClass);
    return above === 0 || THIRDS.includes(above) || FIFTHS.includes(above);
  });
}

/** Whether one is minor on the sixth of the other, which is major. */
function isRelative(minor: Chord, major: Chord): boolean {
  return (
    thirdOf(minor) === "minor" &&
    thirdOf(major) === "major" &&
    withinOctave(major.rootPitchClass - minor.rootPitchClass) === 3
  );
}
