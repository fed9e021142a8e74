import { type Key, keyToWords } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import type { FitAnswer } from "./FitAnswer";
import { FITS_FROM, type FitVerdict } from "./fitVerdict";
import type { Difference } from "./nearMisses";

const STEPS: Readonly<Record<number, string>> = { 1: "a half step", 2: "a whole step", 12: "an octave" };

/** How names are given: plain text for the command line, signs for pages. */
export interface Naming {
  /** Home, by which notes are spelled. */
  key?: Key;
  chord?: (label: string) => string;
  /** Last touch on every name. */
  print?: (name: string) => string;
}

/** How a near miss differs, as in `a half step lower` or `without the top note`. */
export function changeWords(
  change: Difference,
  notesMidi: readonly Midi[],
  { key, print = same }: Naming = {},
): string {
  const name = (midi: Midi) => print(midiToName(midi, key));
  if (change.kind === "without") return `without the ${change.which} note`;
  if (change.kind === "with") return `with ${name(change.midi)} as well`;
  const by = `${STEPS[Math.abs(change.by)]} ${change.by < 0 ? "lower" : "higher"}`;
  if (notesMidi.length === 1) return by;
  return change.midi === null ? `all ${by}` : `${name(change.midi)} ${by}`;
}

/** A fit as it is said: two places, never quite 0 or 1. */
export function fitText(fit: number): string {
  return Math.min(0.99, Math.max(0.01, fit)).toFixed(2);
}

/** What is said of each near miss, in their order, as in `a half step lower reads 0.22`. */
export function nearestWords(answer: FitAnswer, naming: Naming = {}): string[] {
  const { chord = same } = naming;
  const said = (words: string, fit: number) => `${words} reads ${fitText(fit)}`;
  switch (answer.kind) {
    case "notes":
      return answer.nearest.map(({ change, fit }) =>
        said(changeWords(change, answer.notesMidi, naming), fit),
      );
    case "chord":
      return answer.nearest.map(({ label, fit }) => said(chord(label), fit));
    case "key":
      return answer.nearest.map(({ key, fit }) => said((naming.print ?? same)(keyToWords(key)), fit));
  }
}

const MAY_FIT_FROM = 0.4;

/** Whether a guess fits, in a word or three. */
export function fitWords(fit: number): string {
  return fit >= FITS_FROM ? "fits" : fit >= MAY_FIT_FROM ? "may fit" : "does not fit";
}

const VERDICTS: Readonly<Record<FitVerdict["kind"], string>> = {
  fits: "fits",
  low: "written too low",
  high: "written too high",
  octave: "in the wrong octave",
  missing: "a note is missing",
  extra: "a note too many",
  unclear: "not heard here",
};

/** What a check says of notes, as in `written too high: a half step lower reads 0.81`. */
export function verdictWords(
  { kind, better }: FitVerdict,
  notesMidi: readonly Midi[],
  naming: Naming = {},
): string {
  if (!better) return VERDICTS[kind];
  return `${VERDICTS[kind]}: ${changeWords(better.change, notesMidi, naming)} reads ${fitText(better.fit)}`;
}

function same(name: string): string {
  return name;
}
