import { describe, expect, it } from "vitest";
import { LOG_CHORD_IN_KEY, logMoveInKey } from "@/lib/hearing/chordMoves";
import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import { hearKeys } from "@/lib/hearing/homes";
import { profileCorrelation } from "@/lib/hearing/keyEvidence";
import { tonicName } from "@/lib/hearing/keyNames";
import { KRUMHANSL_KESSLER } from "@/lib/hearing/keyProfiles";
import { KEY_STATES } from "@/lib/hearing/keyStates";
import { homesOf } from "@/lib/hearing/telling";
import { formatHarte, parseHarte } from "@/lib/theory/harte";
import { chromaOf, evenBars, labelsIn, stateOf } from "./score";

// C. L. Krumhansl and E. J. Kessler, Psychological Review 89 (1982); the values as tabled in Krumhansl 1990, p. 30,
// and in the Humdrum toolkit's key command (David Huron, humdrum.org).
const MAJOR = "6.35 2.23 3.48 2.33 4.38 4.09 2.52 5.19 2.39 3.66 2.29 2.88";
const MINOR = "6.33 2.68 3.52 5.38 2.60 3.53 2.54 4.75 3.98 2.69 3.34 3.17";

describe("the key profiles", () => {
  it("hold the published ratings", () => {
    expect(KRUMHANSL_KESSLER.major).toEqual(MAJOR.split(" ").map(Number));
    expect(KRUMHANSL_KESSLER.minor).toEqual(MINOR.split(" ").map(Number));
  });

  it("correlate as published: C major with A minor .651, with G major .591, with C minor .511", () => {
    // Krumhansl 1990, table 2.4: correlations between the profiles (from memory; recomputed from the ratings).
    const ofC = Float64Array.from(KRUMHANSL_KESSLER.major);
    expect(profileCorrelation(ofC, { tonic: 0, mode: "major" })).toBeCloseTo(1, 9);
    expect(profileCorrelation(ofC, { tonic: 9, mode: "minor" })).toBeCloseTo(0.651, 2);
    expect(profileCorrelation(ofC, { tonic: 7, mode: "major" })).toBeCloseTo(0.591, 2);
    expect(profileCorrelation(ofC, { tonic: 0, mode: "minor" })).toBeCloseTo(0.511, 2);
  });
});

const LETTERS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

/** A Harte label of chords as players write them, so many semitones up. */
function label(chord: string, by: number): string {
  const [, root, suffix] = /^([A-G][b#]?)(.*)$/.exec(chord)!;
  const quality = { "": "maj", m: "min", "7": "7", m7: "min7", dim: "dim" }[suffix!]!;
  return `${LETTERS[(parseHarte(`${root}:maj`)!.rootPitchClass + by) % 12]}:${quality}`;
}

/** Hears the homes of chords that last a bar each, from their notes and names alone, all so many semitones up. */
function homesIn(chords: string, by = 0) {
  const names = chords.split(" ").map((chord) => label(chord, by));
  const stretches = evenBars(4 * names.length);
  const labels = labelsIn(
    stretches,
    names.map((name, i) => [4 * i, name]),
  );
  const runs: { state: number; from: number; to: number }[] = [];
  labels.forEach((name, i) => {
    const state = stateOf(name);
    if (runs.at(-1)?.state === state) runs.at(-1)!.to = i + 1;
    else runs.push({ state, from: i, to: i + 1 });
  });
  return homesOf(hearKeys(chromaOf(stretches, labels), runs, stretches), stretches);
}

function keysIn(chords: string, by = 0): string[] {
  return homesIn(chords, by).map(({ tonic, mode }) => `${tonic} ${mode}`);
}

function key(tonic: number, mode: "major" | "minor"): string {
  return `${tonicName(tonic, mode)} ${mode}`;
}

// Progressions of which players agree what home is: cadences as in S. Kostka and D. Payne, "Tonal Harmony"; loops
// and modes, common practice, no source. All in C major or A minor.
const IN_C = {
  "I IV V7 I": "C F G7 C C F G7 C",
  "I vi IV V": "C Am F G C Am F G",
  "I V vi IV": "C G Am F C G Am F",
  "ii V I": "Dm7 G7 C C Dm7 G7 C C",
  "from IV": "F C G C F C G C",
  "from V": "G C G C F C G C",
  "from vi": "Am F C G Am F G C",
  "from ii, to V": "Dm G C Am Dm G C G",
  "to V": "C F C G C F C G",
  mixolydian: "C Bb F C C Bb F C",
  "with II7": "C C F C C D7 G7 G7 C C F C C G7 C C",
  "blues of sevenths": "C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7",
  "round the circle": "C E7 A7 D7 G7 C C G7 C",
  "with iv": "C E7 Am C7 F Fm C G7 C",
  "two bars of V": "C F G7 C D7 G D7 G C F G7 C",
};
const IN_A_MINOR = {
  "i iv V7 i": "Am Dm E7 Am Am Dm E7 Am",
  "without a leading note": "Am G F G Am G F G Am",
  "down to V": "Am G F E7 Am G F E7",
  dorian: "Am D Am D Am G D Am",
  "from bVI": "F G Am Am F G Am Am",
  "from iv": "Dm E7 Am Am Dm E7 Am Am",
  "to V": "Am Dm Am E7 Am Dm Am E7",
  "through bIII": "Am Am C C Dm Dm E7 Am Am Am C C Dm Dm E7 Am",
  "minor v": "Am Dm Em Am Am Dm Em Am",
  "by way of the relative major": "Dm7 G7 C F Bdim E7 Am Am",
};

describe("home", () => {
  it.each(Object.entries(IN_C))("is the major tonic, in all twelve keys: %s", (_, chords) => {
    for (let by = 0; by < 12; by++) expect(keysIn(chords, by)).toEqual([key(by, "major")]);
  });

  it.each(Object.entries(IN_A_MINOR))("is the minor tonic, in all twelve keys: %s", (_, chords) => {
    for (let by = 0; by < 12; by++) expect(keysIn(chords, by)).toEqual([key((9 + by) % 12, "minor")]);
  });

  it("moves with a song that goes up, on the bar where it does", () => {
    const song = ["C", "F", "G7", "C", "C", "Am", "G7", "C"].join(" ");
    for (const step of [1, 2]) {
      for (let by = 0; by < 12; by++) {
        const risen = song
          .split(" ")
          .map((chord) => {
            const { rootPitchClass } = parseHarte(`${/^[A-G]/.exec(chord)![0]}:maj`)!;
            return LETTERS[(rootPitchClass + step) % 12]! + chord.slice(1);
          })
          .join(" ");
        const homes = homesIn(`${song} ${risen}`, by);
        expect(homes.map(({ tonic, mode }) => `${tonic} ${mode}`)).toEqual([
          key(by, "major"),
          key((by + step) % 12, "major"),
        ]);
        expect(homes[1]!.startSec).toBe(8 * 2);
      }
    }
  });

  it("moves to another key for a bridge of eight bars and back", () => {
    expect(keysIn("C F G7 C C F G7 C Eb Ab Bb7 Eb Eb Ab Bb7 Eb C F G7 C C F G7 C")).toEqual([
      "C major",
      "Eb major",
      "C major",
    ]);
    expect(keysIn("Am Dm E7 Am Am Dm E7 Am A D E7 A A D E7 A Am Dm E7 Am Am Dm E7 Am")).toEqual([
      "A minor",
      "A major",
      "A minor",
    ]);
  });

  it("does not move for four bars that lean on another degree", () => {
    expect(keysIn("C F G C C F G C D7 G D7 G C F G C C F G C")).toEqual(["C major"]);
  });

  it("is told with the two next likeliest, likelier first, all together at most certain", () => {
    for (const chords of [IN_C["I V vi IV"], IN_A_MINOR["without a leading note"]]) {
      for (const { tonic, mode, confidence, nextBest } of homesIn(chords)) {
        expect(nextBest).toHaveLength(2);
        const [second, third] = nextBest;
        expect(confidence).toBeGreaterThan(second!.confidence);
        expect(second!.confidence).toBeGreaterThanOrEqual(third!.confidence);
        expect(third!.confidence).toBeGreaterThan(0);
        expect(confidence + second!.confidence + third!.confidence).toBeLessThanOrEqual(1 + 1e-9);
        const names = [{ tonic, mode }, ...nextBest].map((guess) => `${guess.tonic} ${guess.mode}`);
        expect(new Set(names).size).toBe(3);
      }
    }
    // A loop of the notes of both: the relative is next to it.
    const [loop] = homesIn("Am F C G Am F C G Am F G Am");
    expect([`${loop!.tonic} ${loop!.mode}`, ...loop!.nextBest.map((g) => `${g.tonic} ${g.mode}`)]).toEqual(
      expect.arrayContaining(["A minor", "C major"]),
    );
  });

  it("is surer of a long song with cadences than of two chords", () => {
    const [two] = homesIn("C F");
    const [long] = homesIn(IN_C["with II7"]);
    expect(two!.confidence).toBeLessThan(0.9);
    expect(long!.confidence).toBeGreaterThan(two!.confidence);
  });
});

describe("the chords of each key", () => {
  it("are probabilities, and none is ruled out", () => {
    for (const row of LOG_CHORD_IN_KEY) {
      expect(row.reduce((sum, value) => sum + Math.exp(value), 0)).toBeCloseTo(1, 9);
      expect(Math.min(...row)).toBeGreaterThan(-15);
    }
  });

  it("follow one another by probabilities, the same in every key", () => {
    for (let k = 0; k < KEY_STATES.length; k++) {
      const { tonic, mode } = KEY_STATES[k]!;
      const home = mode === "major" ? 0 : 12;
      for (const [before, after] of [
        ["G:7", "C:maj"],
        ["F:maj", "C:maj"],
        ["D:min", "G:7"],
      ]) {
        const up = (name: string): number => {
          const chord = parseHarte(name)!;
          const rootName = LETTERS[(chord.rootPitchClass + tonic) % 12]!;
          return stateOf(formatHarte({ ...chord, rootName }));
        };
        expect(logMoveInKey(k, up(before!), up(after!))).toBeCloseTo(
          logMoveInKey(home, stateOf(before!), stateOf(after!)),
          12,
        );
      }
      const sum = CHORD_STATES.reduce((total, _, s) => total + Math.exp(logMoveInKey(k, 5, s)), 0);
      expect(sum).toBeCloseTo(1, 9);
    }
    // V resolves to I rather than falling back to IV or II (Piston's table of usual root progressions).
    const next = (name: string) => logMoveInKey(0, stateOf("G:maj"), stateOf(name));
    expect(next("C:maj")).toBeGreaterThan(next("F:maj"));
    expect(next("F:maj")).toBeGreaterThan(next("D:min"));
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
