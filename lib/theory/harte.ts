import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import { degreeToSemitones } from "./interval";
import { parsePitchName } from "./spelling";

/**
 * Chord labels after C. Harte, M. Sandler, S. Abdallah, E. Gomez, "Symbolic representation of musical chords",
 * ISMIR 2005: `ROOT:shorthand(extensions)/bass`, `ROOT:(intervals)`, `ROOT` for major, `N` for no chord.
 * Intervals, bass included, are degrees of the major scale on the chord's root.
 */
export interface Chord {
  /** Root as spelled in the label, as in `Bb`. */
  rootName: string;
  rootPitchClass: PitchClass;
  /** Shorthand such as `maj` or `min7`; null where the label lists its intervals only. */
  quality: Shorthand | null;
  /** What stands in the parentheses, in order: `b9`, `*3` (left out). */
  extensions: readonly string[];
  /** Bass as a degree above the root; `1` where the root lies lowest. */
  bass: string;
  bassPitchClass: PitchClass;
  /** Pitch classes of the chord, ascending; a bass foreign to the chord is not among them. */
  pitchClasses: readonly PitchClass[];
}

/** Shorthands of the paper's table, then those that later collections of the same syntax added. */
export const SHORTHAND_DEGREES = {
  maj: ["1", "3", "5"],
  min: ["1", "b3", "5"],
  dim: ["1", "b3", "b5"],
  aug: ["1", "3", "#5"],
  maj7: ["1", "3", "5", "7"],
  min7: ["1", "b3", "5", "b7"],
  "7": ["1", "3", "5", "b7"],
  dim7: ["1", "b3", "b5", "bb7"],
  hdim7: ["1", "b3", "b5", "b7"],
  minmaj7: ["1", "b3", "5", "7"],
  maj6: ["1", "3", "5", "6"],
  min6: ["1", "b3", "5", "6"],
  "9": ["1", "3", "5", "b7", "9"],
  maj9: ["1", "3", "5", "7", "9"],
  min9: ["1", "b3", "5", "b7", "9"],
  sus4: ["1", "4", "5"],
  sus2: ["1", "2", "5"],
  "11": ["1", "3", "5", "b7", "9", "11"],
  maj11: ["1", "3", "5", "7", "9", "11"],
  min11: ["1", "b3", "5", "b7", "9", "11"],
  "13": ["1", "3", "5", "b7", "9", "11", "13"],
  maj13: ["1", "3", "5", "7", "9", "11", "13"],
  min13: ["1", "b3", "5", "b7", "9", "11", "13"],
  "5": ["1", "5"],
  "1": ["1"],
} as const satisfies Record<string, readonly string[]>;
export type Shorthand = keyof typeof SHORTHAND_DEGREES;

/** A label that is not in Harte syntax. */
export class HarteError extends Error {
  override readonly name = "HarteError";
  constructor(
    readonly label: string,
    why: string,
  ) {
    super(
      `"${label}" is not a chord label: ${why}. Write for example G:maj, D:7, A:min/b3, or N for no chord.`,
    );
  }
}

/** Label of a stretch without a chord. */
export const NO_CHORD = "N";

const LABEL = /^([A-G](?:b{0,2}|#{0,2}))(?::([a-z]*\d*)?(?:\(([^()]*)\))?)?(?:\/([b#]*\d+))?$/;

/** Reads a chord label; null for `N`. Throws {@link HarteError} when the label cannot be read. */
export function parseHarte(label: string): Chord | null {
  const text = label.trim();
  if (text === NO_CHORD) return null;
  const match = LABEL.exec(text);
  if (match === null) throw new HarteError(label, "its parts cannot be told apart");
  const [, rootName = "", name = "", list, bass = "1"] = match;
  if (text.includes(":") && name === "" && list === undefined)
    throw new HarteError(label, "nothing follows the colon");
  const extensions = list === undefined ? [] : list.split(",").map((part) => part.trim());
  const quality = name === "" ? (list === undefined ? "maj" : null) : name;
  if (quality !== null && !isShorthand(quality))
    throw new HarteError(label, `"${quality}" is no known quality`);
  const root = parsePitchName(rootName).pitchClass;
  const bassSemitones = degreeToSemitones(bass);
  if (bassSemitones === null) throw new HarteError(label, `"${bass}" is no bass interval`);
  return {
    rootName,
    rootPitchClass: root,
    quality,
    extensions,
    bass,
    bassPitchClass: withinOctave(root + bassSemitones),
    pitchClasses: chordTones(label, root, quality, extensions),
  };
}

/** Writes a chord as a label; the inverse of {@link parseHarte} (`G` comes back as `G:maj`). */
export function formatHarte(
  chord: Pick<Chord, "rootName" | "quality" | "extensions" | "bass"> | null,
): string {
  if (chord === null) return NO_CHORD;
  const list = chord.extensions.length > 0 || chord.quality === null ? `(${chord.extensions.join(",")})` : "";
  const bass = chord.bass === "1" ? "" : `/${chord.bass}`;
  return `${chord.rootName}:${chord.quality ?? ""}${list}${bass}`;
}

/** Whether the text is one of the shorthands above. */
export function isShorthand(text: string): text is Shorthand {
  return Object.hasOwn(SHORTHAND_DEGREES, text);
}

function chordTones(
  label: string,
  root: PitchClass,
  quality: Shorthand | null,
  extensions: readonly string[],
) {
  const degrees = new Set<string>(quality === null ? ["1"] : SHORTHAND_DEGREES[quality]);
  for (const extension of extensions) {
    const left = extension.startsWith("*");
    const degree = left ? extension.slice(1) : extension;
    if (degreeToSemitones(degree) === null) throw new HarteError(label, `"${extension}" is no interval`);
    if (left) degrees.delete(degree);
    else degrees.add(degree);
  }
  const classes = [...degrees].map((degree) => withinOctave(root + (degreeToSemitones(degree) ?? 0)));
  return [...new Set(classes)].sort((a, b) => a - b);
}
