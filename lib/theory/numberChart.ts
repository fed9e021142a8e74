import { CHORD_SUFFIXES } from "./chordSuffixes";
import { formatHarte, isShorthand, NO_CHORD, parseHarte, type Shorthand } from "./harte";
import { degreeToSemitones } from "./interval";
import type { Key } from "./key";
import { degreeBetween, noteAbove, noteToDegree, respellInKey, type ScaleDegree } from "./scaleDegree";

/**
 * A chord as a number of the key. In minor keys the minor tonic is 1, written `1-`, and degrees are still
 * counted along the major scale (C in A minor is b3); players who count from the relative major, where home is
 * `6-`, pass `relativeMajor(key)` instead.
 */
export interface ChordNumber extends ScaleDegree {
  /** What follows the number: empty for major, `-`, `7`, `-7`, `sus4`, `7(b9)`; set raised in print. */
  quality: string;
  /** Bass as a number of the key, as in `3` or `b7`; null where the root lies lowest. */
  bass: string | null;
}

/** A chord number that cannot be read. */
export class ChordNumberError extends Error {
  override readonly name = "ChordNumberError";
  constructor(readonly text: string) {
    super(`"${text}" is not a chord number: write for example 1, 6-, 57, b7, 1/3, or N.C. for no chord.`);
  }
}

/** How "no chord" is written on a chart. */
export const NO_CHORD_TEXT = "N.C.";

/**
 * The number of a Harte label in a key; null for no chord. Throws `HarteError` on a label that cannot be read.
 * A root foreign to the key keeps the letter it was written with, see `noteToDegree`.
 */
export function chordToNumber(label: string, key: Key): ChordNumber | null {
  const chord = parseHarte(label);
  if (chord === null) return null;
  const list = chord.extensions.join(",");
  const quality =
    chord.quality === null
      ? `[${list}]`
      : CHORD_SUFFIXES[chord.quality].number + (list === "" ? "" : `(${list})`);
  const bass =
    chord.bass === "1" ? null : degreeText(noteToDegree(noteAbove(chord.rootName, chord.bass, key), key));
  return { ...noteToDegree(chord.rootName, key), quality, bass };
}

/** A chord number in one line of plain text: `1`, `2-`, `57`, `b7`, `1/3`. The first digit is the degree. */
export function formatNumber(number: ChordNumber | null): string {
  if (number === null) return NO_CHORD_TEXT;
  const bass = number.bass === null ? "" : `/${number.bass}`;
  return degreeText(number) + number.quality + bass;
}

/** Shorthand for `formatNumber(chordToNumber(label, key))`. */
export function chordToNumberText(label: string, key: Key): string {
  return formatNumber(chordToNumber(label, key));
}

const NUMBER = /^([b#]?)([1-7])([^/]*)(?:\/([b#]?[1-7]))?$/;

/**
 * Reads a chord number as {@link formatNumber} writes it, and the usual signs for it besides: a dash of any length or `m` for
 * minor, the degree sign, the flat and sharp signs. Null for no chord. Throws {@link ChordNumberError}.
 */
export function parseNumber(text: string): ChordNumber | null {
  const plain = plainSigns(text.trim());
  if (plain === NO_CHORD_TEXT || plain === NO_CHORD || plain === "NC") return null;
  const match = NUMBER.exec(plain);
  if (match === null) throw new ChordNumberError(text);
  const [, accidental = "", degree = "1", quality = "", bass] = match;
  if (parseQuality(quality) === null) throw new ChordNumberError(text);
  return { accidental: accidental as ScaleDegree["accidental"], degree, quality, bass: bass ?? null };
}

/** The Harte label of a chord number (or of its text) in a key; the inverse of {@link chordToNumber}. */
export function numberToChord(number: ChordNumber | string | null, key: Key): string {
  const parts = typeof number === "string" ? parseNumber(number) : number;
  if (parts === null) return NO_CHORD;
  const quality = parseQuality(parts.quality);
  if (quality === null) throw new ChordNumberError(formatNumber(parts));
  const rootName = noteAbove(key.tonic, degreeText(parts), key);
  const bass = parts.bass === null ? "1" : degreeBetween(rootName, noteAbove(key.tonic, parts.bass, key));
  return formatHarte({ rootName, ...quality, bass });
}

/** The chord in letters as players write it: `D7`, `G/B`, `Am`; spelled for the key. Throws `HarteError`. */
export function chordToLetters(label: string, key: Key): string {
  const chord = parseHarte(label);
  if (chord === null) return NO_CHORD_TEXT;
  const list = chord.extensions.length > 0 ? `(${chord.extensions.join(",")})` : "";
  const suffix = chord.quality === null ? "" : CHORD_SUFFIXES[chord.quality].letter;
  const bass = chord.bass === "1" ? "" : `/${respellInKey(noteAbove(chord.rootName, chord.bass, key), key)}`;
  return respellInKey(chord.rootName, key) + suffix + list + bass;
}

/** The major key that shares a minor key's notes (A minor: C major); a major key comes back as it is. */
export function relativeMajor(key: Key): Key {
  if (key.mode === "major") return key;
  return { tonic: noteAbove(key.tonic, "b3", key), mode: "major" };
}

const SHORTHAND_OF_SUFFIX = new Map(
  Object.entries(CHORD_SUFFIXES).flatMap(([shorthand, suffix]): [string, Shorthand][] =>
    isShorthand(shorthand) ? [[suffix.number, shorthand]] : [],
  ),
);

function parseQuality(text: string): { quality: Shorthand | null; extensions: string[] } | null {
  const match = /^([^()[\]]*)(?:\(([^()]+)\)|\[([^[\]]+)\])?$/.exec(text);
  if (match === null) return null;
  const [, suffix = "", added, spelled] = match;
  const extensions = (added ?? spelled ?? "").split(",").filter((part) => part !== "");
  if (extensions.some((part) => degreeToSemitones(part.replace(/^\*/, "")) === null)) return null;
  if (spelled !== undefined) return suffix === "" ? { quality: null, extensions } : null;
  const quality = SHORTHAND_OF_SUFFIX.get(suffix);
  return quality === undefined ? null : { quality, extensions };
}

function plainSigns(text: string): string {
  const signs = text.replaceAll("♭", "b").replaceAll("♯", "#").replace(/[–—−]/g, "-").replaceAll("°", "o");
  return signs
    .replaceAll("ø7", "-7b5")
    .replaceAll("ø", "-7b5")
    .replace(/^([b#]?[1-7])m(?!aj)/, "$1-");
}

function degreeText(degree: ScaleDegree): string {
  return degree.accidental + degree.degree;
}
