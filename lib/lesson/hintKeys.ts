import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import { compareKeys, tonicsApart } from "./compareKeys";

/** The letters in the order in which their sharps come, from F on: their place says how many signs a scale has. */
const FIFTHS = "FCGDAEB";
/** The small third from a minor tonic up to that of its relative major, in fifths. */
const RELATIVE_FIFTHS = 3;

/**
 * Hints at home, from the least telling on; none names it.
 * @param guess the last one; null before any
 */
export function hintKeys(answer: Key, guess: Key | null): string[] {
  const hints: string[] = [];
  const comparison = guess && compareKeys(guess, answer);
  if (comparison === "same" || comparison === "enharmonic") return ["Your last guess holds: uncover it."];
  hints.push(
    answer.mode === "major"
      ? "Hum the note on which it comes to rest, then the third above: it is large."
      : "Hum the note on which it comes to rest, then the third above: it is small.",
  );
  if (comparison === "parallel") hints.push("The note it rests on is right; listen to the third again.");
  if (comparison === "relative")
    hints.push("Your guess has the same scale. It comes to rest on another note of it.");
  if (comparison === "fifth") hints.push("Your guess and home share all notes of the scale but one.");
  if (guess && comparison !== "parallel") {
    const above = tonicsApart(guess, answer);
    hints.push(
      above <= 6 ? "Home lies nearer if you go up from your guess." : "Home lies nearer if you go down.",
    );
  }
  hints.push(signWords(answer));
  return hints;
}

/** How many signs the scale has, as written in front of a staff. */
function signWords(key: Key): string {
  const signs = signsOf(key);
  if (signs === 0) return "Its scale has neither sharps nor flats.";
  const count = Math.abs(signs);
  const sign = signs > 0 ? "sharp" : "flat";
  return `Its scale has ${COUNTS[count] ?? count} ${sign}${count === 1 ? "" : "s"}.`;
}

const COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven"];

/** Sharps of a key's scale, flats counted below nought: along the circle of fifths. */
function signsOf({ tonic, mode }: Key): number {
  const { letter, alteration } = parsePitchName(tonic);
  const signs = FIFTHS.indexOf(letter) - 1 + 7 * alteration - (mode === "minor" ? RELATIVE_FIFTHS : 0);
  // Beyond seven signs a key is written by the other name of its tonic.
  return Math.abs(signs) <= 7 ? signs : signs > 0 ? signs - 12 : signs + 12;
}
