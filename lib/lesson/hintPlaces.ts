import type { Copedent } from "@/lib/instrument/Copedent";
import type { Midi } from "@/lib/units/quantities";
import { comparePlaces, pitchesOf } from "./comparePlaces";
import type { GuessedPlace } from "./GuessValue";
import { hintNotes } from "./hintNotes";

/** Parts of the neck that a hint speaks of, each from its fret on. */
const STRETCHES: readonly (readonly [number, string])[] = [
  [16, "far up the neck, above the sixteenth fret"],
  [11, "about the twelfth fret"],
  [6, "in the middle of the neck"],
  [1, "near the nut"],
];

/**
 * Hints at where something lies, from the least telling on; none names a string, a fret or a pedal.
 * @param guess the last one; null before any
 * @param sounding the pitches of the answer, where its strings lie at frets of their own
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function hintPlaces(
  answer: GuessedPlace,
  guess: GuessedPlace | null,
  copedent: Copedent,
  sounding: readonly Midi[] = pitchesOf(answer, copedent),
): string[] {
  const comparison = guess && comparePlaces(guess, answer, copedent, sounding);
  if (comparison === "same") return ["Your last guess holds: uncover it."];
  return [
    stringsWords(answer.strings),
    guess ? notesWords(guess, sounding, copedent) : null,
    pedalWords(answer.changes, copedent),
    comparison === "string" ? "The notes are right: look for them elsewhere on the neck." : null,
    guess ? fretTowards(guess.fret, answer.fret) : null,
    guess ? stringsTowards(guess.strings, answer.strings) : null,
    neckWords(answer.fret),
  ].filter((hint) => hint !== null);
}

function stringsWords(strings: readonly number[]): string {
  if (strings.length === 1) return "One string.";
  const inOrder = [...strings].sort((a, b) => a - b);
  const skipped = inOrder.at(-1)! - inOrder[0]! + 1 - inOrder.length;
  const count = strings.length === 2 ? "Two" : strings.length === 3 ? "Three" : `${strings.length}`;
  if (skipped === 0) return `${count} strings side by side.`;
  return `${count} strings, with ${skipped === 1 ? "one" : skipped} between them left out.`;
}

/** How the notes of the guess stand to those that sound. */
function notesWords(guess: GuessedPlace, sounding: readonly Midi[], copedent: Copedent): string | null {
  const guessed = pitchesOf(guess, copedent);
  if (guessed.length === 0 || sounding.length === 0) return null;
  const [, towards] = hintNotes(sounding, guessed, { before: null, glides: [], chord: null });
  return towards ? `By its notes: ${towards.charAt(0).toLowerCase()}${towards.slice(1)}` : null;
}

function pedalWords(changes: readonly string[], copedent: Copedent): string {
  if (changes.length === 0)
    return copedent.changes.length === 0
      ? "Nothing but the strings and the frets."
      : "No pedal and no lever.";
  return changes.length === 1
    ? "One pedal or lever is down."
    : `${changes.length} pedals or levers are down.`;
}

function fretTowards(guess: number, answer: number): string {
  if (guess === answer) return "The fret is right.";
  return answer > guess ? "It lies higher up the neck." : "It lies lower down the neck.";
}

function stringsTowards(guess: readonly number[], answer: readonly number[]): string {
  const right = guess.filter((string) => answer.includes(string)).length;
  if (right === answer.length && right === guess.length) return "The strings are right.";
  if (right > 0) return `${right === 1 ? "One" : right} of your strings ${right === 1 ? "is" : "are"} right.`;
  const middle = (strings: readonly number[]) =>
    strings.reduce((sum, each) => sum + each, 0) / strings.length;
  return middle(answer) < middle(guess)
    ? "Take strings further away from you."
    : "Take strings nearer to you.";
}

function neckWords(fret: number): string {
  if (fret === 0) return "It is played without bar or finger.";
  return `It lies ${STRETCHES.find(([from]) => fret >= from)?.[1] ?? "near the nut"}.`;
}
