import type { Semitones } from "@/lib/units/quantities";

const STEPS_IN_WORDS = ["", "a half step", "a whole step", "a step and a half", "two whole steps"];

/** A pull on a string in words: `up a half step`. */
export function pullToWords(pull: Semitones): string {
  if (pull === 0) return "back to its open pitch";
  const size = Math.abs(pull);
  return `${pull > 0 ? "up" : "down"} ${STEPS_IN_WORDS[size] ?? `${size} half steps`}`;
}
