import { describe, expect, it } from "vitest";
import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import { type BassChances, signalBassChances, withBass } from "@/lib/hearing/inversion";
import { chromaOf, evenBars, labelsIn, stateOf, type Written } from "./score";

const stretches = evenBars(16);
const COUNT = stretches.starts.length;

/** Chances that are `sure` of a pitch class and even about all else, for the pitch class of each half beat. */
function basses(pitchClass: (halfBeat: number) => number, sure = 0.9): BassChances[] {
  return Array.from({ length: COUNT }, (_, i) => {
    const row = new Float64Array(13).fill((1 - sure) / 12);
    row[pitchClass(i)] = sure;
    return row;
  });
}

/** Degree and first beat of each bass that is said to be held under one chord over the whole. */
function held(label: string, bass: BassChances[]): [string, number][] {
  const state = stateOf(label);
  const run = { state, from: 0, to: COUNT, bassPlace: 0, confidence: 1 };
  const { degrees } = CHORD_STATES[state]!.chord!.type;
  return withBass([run], bass, stretches).map(({ bassPlace, from }) => [
    degrees[bassPlace]!,
    stretches.edgesSec[from]! * 2,
  ]);
}

describe("the bass of a chord", () => {
  it("is each of its tones where that is held, on every root and in every quality", () => {
    for (const { chord } of CHORD_STATES) {
      if (!chord) continue;
      const { root, type } = chord;
      const names = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
      type.semitones.forEach((above, place) => {
        const label = `${names[root]}:${type.quality}`;
        expect(
          held(
            label,
            basses(() => (root + above) % 12),
          ),
          `${label} over ${type.degrees[place]}`,
        ).toEqual([[type.degrees[place], 0]]);
      });
    }
  });

  it("is the root where root and fifth take turns, on beats or half bars", () => {
    for (const halfBeats of [2, 4]) {
      const turns = basses((i) => (Math.floor(i / halfBeats) % 2 === 0 ? 0 : 7));
      expect(held("C:maj", turns)).toEqual([["1", 0]]);
    }
    expect(
      held(
        "C:maj",
        basses((i) => (Math.floor(i / 2) % 2 === 0 ? 7 : 0)),
      ),
    ).toEqual([["1", 0]]);
  });

  it("is the root where it walks through other notes up to the next chord", () => {
    // C C C C C C D E up to F: the last two beats walk.
    expect(
      held(
        "C:maj",
        basses((i) => (i < 28 ? 0 : i < 30 ? 2 : 4)),
      ),
    ).toEqual([["1", 0]]);
    // C D E G on every bar.
    expect(
      held(
        "C:maj",
        basses((i) => [0, 2, 4, 7][Math.floor(i / 2) % 4]!),
      ),
    ).toEqual([["1", 0]]);
  });

  it("parts a chord where it settles on another tone, at that beat", () => {
    expect(
      held(
        "C:maj",
        basses((i) => (i < 16 ? 0 : 4)),
      ),
    ).toEqual([
      ["1", 0],
      ["3", 8],
    ]);
    expect(
      held(
        "C:7",
        basses((i) => (i < 8 || i >= 24 ? 0 : 10)),
      ),
    ).toEqual([
      ["1", 0],
      ["b7", 4],
      ["1", 12],
    ]);
  });

  it("is the root where nothing is heard in the bass, and stays out of stretches without a chord", () => {
    expect(
      held(
        "C:maj",
        basses(() => 12, 1),
      ),
    ).toEqual([["1", 0]]);
    const none = { state: 0, from: 0, to: COUNT, bassPlace: 0, confidence: 1 };
    expect(
      withBass(
        [none],
        basses(() => 4),
        stretches,
      ),
    ).toEqual([none]);
  });

  it("is read from the bass chroma of the plain signal too", () => {
    const written: Written[] = [
      [0, "G:maj"],
      [8, "G:maj/3"],
    ];
    const chances = signalBassChances(chromaOf(stretches, labelsIn(stretches, written)));
    for (const row of chances) expect(row.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 9);
    expect(held("G:maj", chances)).toEqual([
      ["1", 0],
      ["3", 8],
    ]);
  });
});
