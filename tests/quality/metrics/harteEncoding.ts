/**
 * Chord labels as the metrics see them: root, twelve semitones above it, bass. The conventions are those of
 * mir_eval.chord (Raffel et al., ISMIR 2014), which follow Harte (2010) and the MIREX chord task: extensions fold
 * into the octave only within it, and the bass counts as a note of the chord. This is kept apart from the label
 * reader under test.
 */
export interface ChordCode {
  /** 0 to 11; -1 where there is no chord or the label cannot be read. */
  root: number;
  /** Whether each semitone above the root sounds, 0 or 1; all -1 for a label outside the syntax. */
  semitones: readonly number[];
  /** Semitones of the bass above the root; -1 where there is no root. */
  bass: number;
}

const PITCH_CLASSES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const DEGREES: Readonly<Record<string, number>> = {
  ...{ "1": 0, "2": 2, "3": 4, "4": 5, "5": 7, "6": 9, "7": 11 },
  ...{ "8": 12, "9": 14, "10": 16, "11": 17, "12": 19, "13": 21 },
};

function semitones(...sounding: number[]): number[] {
  return Array.from({ length: 12 }, (_, semitone) => (sounding.includes(semitone) ? 1 : 0));
}

export const NO_SEMITONES: readonly number[] = semitones();
export const QUALITIES = {
  maj: semitones(0, 4, 7),
  min: semitones(0, 3, 7),
  aug: semitones(0, 4, 8),
  dim: semitones(0, 3, 6),
  sus4: semitones(0, 5, 7),
  sus2: semitones(0, 2, 7),
  "7": semitones(0, 4, 7, 10),
  maj7: semitones(0, 4, 7, 11),
  min7: semitones(0, 3, 7, 10),
  minmaj7: semitones(0, 3, 7, 11),
  maj6: semitones(0, 4, 7, 9),
  min6: semitones(0, 3, 7, 9),
  dim7: semitones(0, 3, 6, 9),
  hdim7: semitones(0, 3, 6, 10),
  maj9: semitones(0, 4, 7, 11),
  min9: semitones(0, 3, 7, 10),
  "9": semitones(0, 4, 7, 10),
  b9: semitones(0, 4, 7),
  "#9": semitones(0, 4, 7),
  "11": semitones(0, 4, 7, 10),
  "#11": semitones(0, 4, 7),
  "13": semitones(0, 4, 7, 10),
  b13: semitones(0, 4, 7),
  min11: semitones(0, 3, 7, 10),
  maj13: semitones(0, 4, 7, 11),
  min13: semitones(0, 3, 7, 10),
  "1": semitones(0),
  "5": semitones(0, 7),
  "": semitones(0),
} as const;
/** The tensions that the names of extended chords mean, folded into the octave: for segmentation only. */
const TENSIONS: Readonly<Record<string, readonly number[]>> = {
  maj9: [2],
  min9: [2],
  "9": [2],
  b9: [10, 1],
  "#9": [10, 3],
  "11": [2, 5],
  "#11": [10, 2, 6],
  "13": [2, 5, 9],
  b13: [10, 2, 5, 8],
  min11: [2, 5],
  maj13: [2, 5, 9],
  min13: [2, 5, 9],
};

const LABEL = /^([A-G][b#]*)(?::([a-z0-9#]*))?(?:\(([^)]*)\))?(?:\/([b#]*\d+))?$/;

/** Pitch class of a name such as `Eb`; the letter may be small. */
export function pitchClassOf(name: string): number {
  const letter = PITCH_CLASSES[name.charAt(0).toUpperCase()];
  if (letter === undefined) throw new RangeError(`no pitch is called ${name}`);
  return (((letter + count(name, "#") - count(name.slice(1), "b")) % 12) + 12) % 12;
}

function count(text: string, sign: string): number {
  return text.split(sign).length - 1;
}

function degreeSemitones(degree: string): number {
  const number = DEGREES[degree.replace(/^[b#]+/, "")];
  if (number === undefined) throw new RangeError(`no degree is called ${degree}`);
  return number - count(degree, "b") + count(degree, "#");
}

function isQuality(name: string): name is keyof typeof QUALITIES {
  return Object.hasOwn(QUALITIES, name);
}

interface LabelParts {
  rootName: string;
  quality: keyof typeof QUALITIES;
  listed: string[];
  bass: string | undefined;
}

function takeApart(label: string): LabelParts {
  const match = LABEL.exec(label);
  const named = match?.[2];
  if (!match || (named !== undefined && !isQuality(named)))
    throw new RangeError(`no chord is written ${label}`);
  const [, rootName = "", , list, bass] = match;
  const listed = (list ?? "")
    .split(",")
    .map((degree) => degree.trim())
    .filter((degree) => degree !== "");
  let quality: keyof typeof QUALITIES =
    named !== undefined && isQuality(named) ? named : list === undefined ? "maj" : "";
  if (label.includes(":(")) quality = "1";
  return { rootName, quality, listed, bass };
}

/** @throws {RangeError} for a label outside the syntax */
export function encodeChord(label: string): ChordCode {
  if (label === "N") return { root: -1, semitones: NO_SEMITONES, bass: -1 };
  if (label === "X") return { root: -1, semitones: NO_SEMITONES.map(() => -1), bass: -1 };
  const { rootName, quality, listed, bass: bassName } = takeApart(label);
  const counted: number[] = [...QUALITIES[quality]];
  counted[0] = 1;
  for (const degree of listed) {
    const leftOut = degree.startsWith("*");
    const semitone = degreeSemitones(degree.replace(/^\*+/, ""));
    if (semitone < 12 || leftOut) {
      const folded = ((semitone % 12) + 12) % 12;
      counted[folded]! += leftOut ? -1 : 1;
    }
  }
  const bass = bassName ? ((degreeSemitones(bassName) % 12) + 12) % 12 : 0;
  const sounding = counted.map((times) => (times > 0 ? 1 : 0));
  sounding[bass] = 1;
  return { root: pitchClassOf(rootName), semitones: sounding, bass };
}

/** The label, or `X` where it cannot be read. */
export function readableLabel(label: string): string {
  try {
    encodeChord(label);
    return label;
  } catch {
    return "X";
  }
}

/** Two labels with the same identity name the same chord; tensions of extended chords count here. */
export function chordIdentity(label: string): string {
  const { root, semitones: sounding, bass } = encodeChord(label);
  const withTensions = [...sounding];
  if (root >= 0) {
    const { listed } = takeApart(label);
    const named = /:([a-z0-9#]*)/.exec(label)?.[1] ?? "";
    for (const tension of TENSIONS[named] ?? []) withTensions[tension] = 1;
    for (const degree of listed) {
      if (!degree.startsWith("*")) withTensions[((degreeSemitones(degree) % 12) + 12) % 12] = 1;
    }
  }
  return `${root}|${withTensions.join("")}|${bass}`;
}
