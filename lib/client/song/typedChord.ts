import { CHORD_SUFFIXES } from "@/lib/theory/chordSuffixes";
import { formatHarte, isShorthand, NO_CHORD, parseHarte, type Shorthand } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { numberToChord } from "@/lib/theory/numberChart";
import { degreeBetween } from "@/lib/theory/scaleDegree";
import { refuseNumbers } from "./typedNumbers";

/** A chord that was typed and cannot be read; the message is in words for people. */
export class TypedChordError extends Error {
  override readonly name = "TypedChordError";
  constructor(text: string) {
    super(`"${text}" is no chord here: type a number as in 4, 2-, 57, 1/3, or letters as in D7, Am, G/B.`);
  }
}

const LETTERS = /^([A-Ga-g][b#]?)([^/]*?)(?:\(([b#\d,]+)\))?(?:\/([A-Ga-g][b#]?))?$/;

const SHORTHAND_OF = new Map<string, Shorthand>(
  Object.entries(CHORD_SUFFIXES).flatMap(([shorthand, suffix]): [string, Shorthand][] =>
    isShorthand(shorthand) ? [[suffix.letter, shorthand]] : [],
  ),
);
/** Other ways to write the same, besides those of the table (common practice, no source). */
const ALSO: readonly [string, Shorthand][] = [
  ["-", "min"],
  ["min", "min"],
  ["-7", "min7"],
  ["min7", "min7"],
  ["M7", "maj7"],
  ["dim", "dim"],
  ["o", "dim"],
  ["o7", "dim7"],
  ["aug", "aug"],
  ["sus", "sus4"],
  ["maj", "maj"],
];
for (const [written, shorthand] of ALSO) SHORTHAND_OF.set(written, shorthand);

/**
 * The chord label of what a player typed: a number of the key (`4`, `2-`, `5/7`, `b7`), letters (`D7`, `G/B`),
 * or `N` for no chord. A number is tried first, so `b7` is the flat seventh, not B7 in small letters.
 * @param key home; null where it is not seen
 * @returns Harte label
 * @throws TypedChordError; UnseenHomeError for a number where home is not seen
 */
export function typedChord(text: string, key: Key | null): string {
  const typed = text.trim().replaceAll("♭", "b").replaceAll("♯", "#").replaceAll("−", "-");
  if (/^n(\.?c\.?)?$/i.test(typed)) return NO_CHORD;
  if (key === null) refuseNumbers(typed);
  else if (/^[b#]?[1-7]/.test(typed)) return readNumber(typed, key);
  if (typed.includes(":")) return readLabel(typed);
  return readLetters(typed);
}

function readNumber(typed: string, key: Key): string {
  try {
    return numberToChord(typed, key);
  } catch {
    throw new TypedChordError(typed);
  }
}

function readLabel(typed: string): string {
  try {
    return formatHarte(parseHarte(typed));
  } catch {
    throw new TypedChordError(typed);
  }
}

function readLetters(typed: string): string {
  const match = LETTERS.exec(typed);
  if (!match) throw new TypedChordError(typed);
  const [, root = "", suffix = "", list, bassName] = match;
  const rootName = capital(root);
  const quality = SHORTHAND_OF.get(suffix.trim());
  if (quality === undefined) throw new TypedChordError(typed);
  const bass = bassName === undefined ? "1" : degreeBetween(rootName, capital(bassName));
  return readLabel(formatHarte({ rootName, quality, extensions: list ? list.split(",") : [], bass }));
}

function capital(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
