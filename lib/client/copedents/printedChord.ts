import { printed } from "@/lib/client/format/format";
import { formatHarte, parseHarte } from "@/lib/theory/harte";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { chordToLetters, chordToNumberText } from "@/lib/theory/numberChart";
import { parsePitchName, spellPitchClass } from "@/lib/theory/spelling";

/** A chord of a combination in print. */
export interface PrintedChord {
  /** `4` or `♭7`, against the open strings; null where they are no home. */
  degree: string | null;
  /** What follows the number, set raised: `−7`, `sus4`. */
  quality: string;
  /** At the fret: `F♯m7`. */
  letters: string;
  /** What it goes without, in words: `no 5`; empty where it is whole. */
  without: string;
}

/**
 * A chord that a combination gives at fret 0, with the bar at a fret: `A:maj` on E strings at fret 3 is 4, C.
 * @param label Harte label at fret 0
 * @param home key of the open strings, by which it is counted and spelled; null where they have none
 */
export function printedChord(label: string, fret: number, home: Key | null): PrintedChord {
  const chord = parseHarte(label);
  if (chord === null) return { degree: null, quality: "", letters: printed(label), without: "" };
  const extensions = chord.extensions.filter((each) => !each.startsWith("*"));
  const missing = chord.extensions.filter((each) => each.startsWith("*"));
  const number = home && chordToNumberText(formatHarte({ ...chord, extensions }), home);
  const [, degree = "", quality = ""] = /^([b#]?\d)(.*)$/.exec(number ?? "") ?? [];
  const key = home === null ? C_MAJOR : transposed(home, fret);
  const rootName = spellPitchClass(chord.rootPitchClass + fret, key);
  return {
    degree: number === null ? null : printed(degree),
    quality: printed(quality),
    letters: printed(chordToLetters(formatHarte({ ...chord, extensions, rootName }), key)),
    without: missing.map((each) => (each === "*1" ? "no root" : `no ${each.slice(1)}`)).join(", "),
  };
}

function transposed({ tonic, mode }: Key, fret: number): Key {
  if (fret % 12 === 0) return { tonic, mode };
  return { tonic: spellPitchClass(parsePitchName(tonic).pitchClass + fret, C_MAJOR), mode };
}
