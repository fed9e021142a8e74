import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi, Semitones } from "@/lib/units/quantities";
import type { Comparison } from "./Comparison";

/** Further off than a whole step is another note. */
const NEAR_UP_TO: Semitones = 2;

/**
 * How guessed notes stand to those of the answer; pitches are rounded to the nearest semitone.
 * @param guess, answer in any order, one or more
 */
export function compareNotes(guess: readonly Midi[], answer: readonly Midi[]): Comparison {
  const [guessed, right] = [inOrder(guess), inOrder(answer)];
  const hit = guessed.filter((midi) => right.includes(midi));
  if (hit.length === right.length && hit.length === guessed.length) return "same";
  if (hit.length === right.length) return "more";
  if (hit.length === guessed.length) return "fewer";
  if (sameClasses(guessed, right)) return "octave";
  if (hit.length > 0) return "part";
  if (guessed.length === right.length && guessed.every((midi, at) => isNear(midi, right[at]!))) return "near";
  return "other";
}

/** Whole semitones, each once, the lowest first. */
export function inOrder(midis: readonly Midi[]): Midi[] {
  return [...new Set(midis.map(Math.round))].sort((a, b) => a - b);
}

function isNear(one: Midi, other: Midi): boolean {
  return Math.abs(one - other) <= NEAR_UP_TO;
}

function sameClasses(some: readonly Midi[], others: readonly Midi[]): boolean {
  if (some.length !== others.length) return false;
  const classes = (midis: readonly Midi[]) => midis.map(midiToPitchClass).sort((a, b) => a - b);
  return classes(some).join() === classes(others).join();
}
