import type { Semitones } from "@/lib/units/quantities";

const UP_TO_OCTAVE = [
  "no step",
  "a half step",
  "a whole step",
  "a small third",
  "a large third",
  "a fourth",
  "three whole steps",
  "a fifth",
  "a small sixth",
  "a large sixth",
  "a small seventh",
  "a large seventh",
  "an octave",
] as const;

/** A distance as players say it, whichever way it goes: `a fourth`; beyond an octave `an octave and a third` and the like. */
export function intervalWords(semitones: Semitones): string {
  const size = Math.abs(Math.round(semitones));
  if (size <= 12) return UP_TO_OCTAVE[size]!;
  const over = size % 12;
  const octaves = Math.floor(size / 12);
  const said = octaves === 1 ? "an octave" : `${octaves} octaves`;
  return over === 0 ? said : `${said} and ${UP_TO_OCTAVE[over]}`;
}
