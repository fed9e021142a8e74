import { Chord, Note } from "tonal";
import { describe, expect, it } from "vitest";
import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import type { HeardHome } from "@/lib/hearing/Hearing";
import { tonicName } from "@/lib/hearing/keyNames";
import { KEY_STATES } from "@/lib/hearing/keyStates";
import { chordsOf, homesOf } from "@/lib/hearing/telling";
import { parseHarte } from "@/lib/theory/harte";
import { evenBars, stateOf } from "./score";

const stretches = evenBars(4);
const COUNT = stretches.starts.length;

function homeOf(k: number): HeardHome {
  const { tonic, mode } = KEY_STATES[k]!;
  return { startSec: 0, endSec: 2, tonic: tonicName(tonic, mode), mode, confidence: 1, nextBest: [] };
}

/** One chord over the whole, with so much probability on it and on others. */
function told(chances: Partial<Record<number, number>>, state: number, home: HeardHome, bassPlace = 0) {
  const row = new Float64Array(CHORD_STATES.length);
  for (const [s, chance] of Object.entries(chances)) row[Number(s)] = chance!;
  return chordsOf(
    {
      runs: [{ state, from: 0, to: COUNT, bassPlace, confidence: chances[state]! }],
      certain: stretches.starts.map(() => row),
      stretches,
    },
    [home],
  )[0]!;
}

/** Names of the qualities in tonal (github.com/tonaljs/tonal), a general library of music theory. */
const TONAL: Record<string, string> = {
  maj: "M",
  min: "m",
  "7": "7",
  maj7: "maj7",
  min7: "m7",
  sus4: "sus4",
  sus2: "sus2",
  dim: "dim",
  aug: "aug",
  maj6: "6",
};

describe("the chords told", () => {
  // A key of sharps, one of flats, a minor one; all roots and tones of the bass in each.
  it.each([4, 8, 21])("have the notes that tonal gives to their names, in home %i", (k) => {
    const home = homeOf(k);
    CHORD_STATES.forEach(({ chord }, state) => {
      if (!chord) return;
      chord.type.semitones.forEach((above, place) => {
        const read = parseHarte(told({ [state]: 1 }, state, home, place).label)!;
        const named = Chord.getChord(TONAL[read.quality!]!, read.rootName);
        expect(named.notes.map((name) => Note.chroma(name)).sort((a, b) => a - b)).toEqual(read.pitchClasses);
        expect(read.rootPitchClass).toBe(chord.root);
        expect(read.bassPitchClass).toBe((chord.root + above) % 12);
        expect(named.notes.map((name) => Note.chroma(name))).toContain(read.bassPitchClass);
      });
    });
  });

  it("are spelled by the home: no note of a scale but by its own letter", () => {
    const roots = (k: number, degrees: number[]): string[] =>
      degrees.map((above) => {
        const state = 1 + ((KEY_STATES[k]!.tonic + above) % 12);
        return parseHarte(told({ [state]: 1 }, state, homeOf(k)).label)!.rootName;
      });
    const major = [0, 2, 4, 5, 7, 9, 11];
    for (let k = 0; k < 12; k++) {
      expect(new Set(roots(k, major).map((name) => name[0])).size).toBe(7);
    }
    expect(roots(3, major)).toEqual(["Eb", "F", "G", "Ab", "Bb", "C", "D"]);
    expect(roots(4, major)).toEqual(["E", "F#", "G#", "A", "B", "C#", "D#"]);
  });

  it("come with the two next likeliest, likelier first, spelled by the same home", () => {
    const [gb, eb, db] = [stateOf("Gb:maj"), stateOf("Eb:min"), stateOf("Db:7")];
    const change = told({ [gb]: 0.6, [db]: 0.1, [eb]: 0.25, 0: 0.05 }, gb, homeOf(1));
    expect(change.label).toBe("Gb:maj");
    expect(change.confidence).toBeCloseTo(0.6, 9);
    expect(change.nextBest.map(({ label }) => label)).toEqual(["Eb:min", "Db:7"]);
    expect(change.nextBest.map(({ confidence }) => confidence)).toEqual([
      expect.closeTo(0.25, 9),
      expect.closeTo(0.1, 9),
    ]);
    // In E the same chords carry sharps.
    const inE = told({ [gb]: 0.6, [db]: 0.1, [eb]: 0.25, 0: 0.05 }, gb, homeOf(4));
    expect([inE.label, ...inE.nextBest.map(({ label }) => label)]).toEqual(["F#:maj", "D#:min", "C#:7"]);
  });

  it("name no chord as N, as a guess too", () => {
    const c = stateOf("C:maj");
    expect(told({ 0: 0.7, [c]: 0.3 }, 0, homeOf(0)).label).toBe("N");
    expect(told({ 0: 0.3, [c]: 0.7 }, c, homeOf(0)).nextBest[0]!.label).toBe("N");
  });
});

describe("how sure a run is said to be", () => {
  it("is never more than certain, however many stretches are certain of it", () => {
    for (let bars = 1; bars <= 12; bars++) {
      const long = evenBars(bars);
      const certainOf = (count: number) =>
        long.starts.map(() => Float64Array.from({ length: count }, (_, s) => (s === 0 ? 1 : 0)));
      const count = long.starts.length;
      const keys = { path: new Array<number>(count).fill(0), certain: certainOf(KEY_STATES.length) };
      const runs = [{ state: 0, from: 0, to: count, bassPlace: 0, confidence: 1 }];
      const homes = homesOf(keys, long);
      const chords = chordsOf({ runs, certain: certainOf(CHORD_STATES.length), stretches: long }, homes);
      expect([...homes, ...chords].map(({ confidence }) => confidence)).toEqual([1, 1]);
    }
  });
});
