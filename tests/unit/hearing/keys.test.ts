import { describe, expect, it } from "vitest";
import { LOG_CHORD_IN_KEY } from "@/lib/hearing/chordMoves";
import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import type { StretchChroma } from "@/lib/hearing/chroma";
import { hearKeys } from "@/lib/hearing/homes";
import { tonicName } from "@/lib/hearing/keyNames";
import { KRUMHANSL_KESSLER } from "@/lib/hearing/keyProfiles";
import { KEY_STATES } from "@/lib/hearing/keyStates";
import type { Shorthand } from "@/lib/theory/harte";

// C. L. Krumhansl and E. J. Kessler, Psychological Review 89 (1982); the values as tabled in Krumhansl 1990, p. 30,
// and in the Humdrum toolkit's key command (David Huron, humdrum.org).
const MAJOR = "6.35 2.23 3.48 2.33 4.38 4.09 2.52 5.19 2.39 3.66 2.29 2.88";
const MINOR = "6.33 2.68 3.52 5.38 2.60 3.53 2.54 4.75 3.98 2.69 3.34 3.17";

describe("the key profiles", () => {
  it("hold the published ratings", () => {
    expect(KRUMHANSL_KESSLER.major).toEqual(MAJOR.split(" ").map(Number));
    expect(KRUMHANSL_KESSLER.minor).toEqual(MINOR.split(" ").map(Number));
  });
});

const TRIADS: Partial<Record<Shorthand, number[]>> = {
  maj: [0, 4, 7],
  min: [0, 3, 7],
  "7": [0, 4, 7, 10],
};

/** Hears the key of a row of chords, each held for four beats, from their notes alone. */
function homeOf(chords: [number, Shorthand][]): { path: string[]; confidence: number } {
  const stretches: StretchChroma[] = [];
  const runs = chords.map(([root, quality], i) => {
    const chroma = new Float64Array(12);
    for (const semitones of TRIADS[quality]!) chroma[(root + semitones) % 12] = 0.5;
    const bass = new Float64Array(12);
    bass[root] = 1;
    for (let k = 0; k < 4; k++) {
      stretches.push({ startSec: 4 * i + k, endSec: 4 * i + k + 1, treble: chroma, bass, level: 1 });
    }
    const state = CHORD_STATES.findIndex(
      ({ chord }) => chord?.root === root && chord.type.quality === quality,
    );
    return { state, from: 4 * i, to: 4 * i + 4, confidence: 1 };
  });
  const walk = hearKeys(stretches, runs, {
    edgesSec: [...stretches.keys(), stretches.length],
    starts: stretches.map((_, i) => (i % 4 === 0 ? "downbeat" : "beat")),
    beats: stretches.map(() => 1),
    beatOf: [...stretches.keys(), stretches.length],
  });
  const path = walk.path.map((k) => {
    const { tonic, mode } = KEY_STATES[k]!;
    return `${tonicName(tonic, mode)} ${mode}`;
  });
  return { path: [...new Set(path)], confidence: walk.certain[0]![walk.path[0]!]! };
}

// Progressions as S. Kostka and D. Payne, "Tonal Harmony", teach them: which chord is home is not in doubt.
describe("home", () => {
  it("is G in I IV V7 I of G", () => {
    const home = homeOf([
      [7, "maj"],
      [0, "maj"],
      [2, "7"],
      [7, "maj"],
    ]);
    expect(home.path).toEqual(["G major"]);
    expect(home.confidence).toBeGreaterThan(0.7);
  });

  it("tells a minor key from its relative major, both ways", () => {
    expect(
      homeOf([
        [9, "min"],
        [2, "min"],
        [4, "7"],
        [9, "min"],
      ]).path,
    ).toEqual(["A minor"]);
    expect(
      homeOf([
        [0, "maj"],
        [9, "min"],
        [5, "maj"],
        [7, "7"],
        [0, "maj"],
      ]).path,
    ).toEqual(["C major"]);
  });

  it("moves with a song that goes up a whole step", () => {
    const inC: [number, Shorthand][] = [
      [0, "maj"],
      [5, "maj"],
      [7, "7"],
      [0, "maj"],
    ];
    const inD = inC.map(([root, quality]): [number, Shorthand] => [root + 2, quality]);
    expect(homeOf([...inC, ...inC, ...inD, ...inD]).path).toEqual(["C major", "D major"]);
  });

  it("moves with the record: every transposition of one song is heard in its own key", () => {
    for (let by = 0; by < 12; by++) {
      const chords = (
        [
          [0, "maj"],
          [9, "min"],
          [2, "min"],
          [7, "7"],
          [0, "maj"],
        ] as [number, Shorthand][]
      ).map(([root, quality]): [number, Shorthand] => [(root + by) % 12, quality]);
      expect(homeOf(chords).path).toEqual([`${tonicName(by, "major")} major`]);
    }
  });
});

describe("the chords of each key", () => {
  it("are probabilities, and none is ruled out", () => {
    for (const row of LOG_CHORD_IN_KEY) {
      expect(row.reduce((sum, value) => sum + Math.exp(value), 0)).toBeCloseTo(1, 9);
      expect(Math.min(...row)).toBeGreaterThan(-15);
    }
  });
});

describe("names of tonics", () => {
  // Signatures with more than six accidentals are not used (common practice, no source).
  it("carry at most one accidental and name every pitch class once", () => {
    for (const mode of ["major", "minor"] as const) {
      const names = Array.from({ length: 12 }, (_, tonic) => tonicName(tonic, mode));
      expect(new Set(names).size).toBe(12);
      for (const name of names) expect(name).toMatch(/^[A-G][#b]?$/);
    }
    expect(tonicName(3, "major")).toBe("Eb");
    expect(tonicName(8, "minor")).toBe("G#");
  });
});
