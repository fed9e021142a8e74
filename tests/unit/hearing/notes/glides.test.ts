import { describe, expect, it, vi } from "vitest";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { heardIn, matching, type Played, play } from "./steelSound";

vi.setConfig({ testTimeout: 60_000 });

/** From a quick pedal to a slow bar. */
const LENGTHS_SEC = [0.05, 0.1, 0.2, 0.35];
const EVERY_SEC = 1.5;
const SOUNDS_SEC = 1.2;
const MOVES_AFTER_SEC = 0.5;

/** What is heard of a string that was played: one note of the steel, or a failure. */
function steelNote(heard: readonly HeardNote[], string: Played): HeardNote {
  const notes = matching(heard.filter(isSteel), string);
  expect(notes, `steel notes at ${string.startSec} s, MIDI ${string.midi}`).toHaveLength(1);
  return notes[0]!;
}

/** Two strings, B3 and E4, that move by so many semitones; one such pair for each length. */
function pairsThatMove(low: number, high: number): { strings: [Played, Played]; lengthSec: number }[] {
  return LENGTHS_SEC.map((lengthSec, i) => {
    const startSec = 0.3 + i * EVERY_SEC;
    const string = (midi: number, by: number): Played => ({
      startSec,
      endSec: startSec + SOUNDS_SEC,
      midi,
      glides: by === 0 ? [] : [[startSec + MOVES_AFTER_SEC, lengthSec, midi + by]],
    });
    return { strings: [string(59, low), string(64, high)], lengthSec };
  });
}

describe("glides of pairs", () => {
  it.each([
    ["the low voice up against a held one", 2, 0, "pedal"],
    ["the high voice up against a held one", 0, 1, "pedal"],
    ["both alike, up", 2, 2, "bar"],
    ["both alike, down", -1, -1, "bar"],
  ] as const)("are heard at every speed: %s", async (_, low, high, kind) => {
    const moves = pairsThatMove(low, high);
    const heard = await heardIn(play(moves.flatMap(({ strings }) => strings)));
    for (const { strings, lengthSec } of moves) {
      for (const string of strings) {
        const note = steelNote(heard, string);
        const wanted = string.glides!;
        expect(note.glides).toHaveLength(wanted.length);
        note.glides.forEach((glide, g) => {
          const [atSec, , toMidi] = wanted[g]!;
          expect(glide.kind).toBe(kind);
          expect(Math.abs(glide.toMidi - toMidi)).toBeLessThan(0.5);
          expect(Math.abs(glide.atSec - atSec)).toBeLessThan(0.1);
          expect(glide.durationSec).toBeGreaterThan(lengthSec / 2);
          expect(glide.durationSec).toBeLessThan(lengthSec * 2);
        });
      }
    }
  });
});

describe("a pedal under a held note", () => {
  it("is heard pressed and let go: one note with two glides", async () => {
    const held = { startSec: 0.3, endSec: 2.6, midi: 64 };
    const pulled: Played = {
      startSec: 0.3,
      endSec: 2.6,
      midi: 59,
      glides: [
        [1, 0.12, 61],
        [1.8, 0.12, 59],
      ],
    };
    const heard = await heardIn(play([held, pulled]));
    expect(steelNote(heard, held).glides).toEqual([]);
    const { glides, endSec } = steelNote(heard, pulled);
    expect(glides.map(({ kind, toMidi }) => [kind, Math.round(toMidi)])).toEqual([
      ["pedal", 61],
      ["pedal", 59],
    ]);
    expect(endSec).toBeGreaterThan(2.4);
  });
});

describe("a glide of a note alone", () => {
  it("is not told by its kind where a pedal could do it", async () => {
    const strings = [1, 2, -2].map((by, i): Played => {
      const startSec = 0.3 + i * EVERY_SEC;
      return {
        startSec,
        endSec: startSec + SOUNDS_SEC,
        midi: 64,
        glides: [[startSec + MOVES_AFTER_SEC, 0.12, 64 + by]],
      };
    });
    const heard = await heardIn(play(strings));
    for (const string of strings) {
      const { glides } = steelNote(heard, string);
      expect(glides.map(({ kind, toMidi }) => [kind, Math.round(toMidi)])).toEqual([
        ["unsure", string.glides![0]![2]],
      ]);
    }
  });

  it("is the bar's where no pedal reaches", async () => {
    const string: Played = { startSec: 0.3, endSec: 1.8, midi: 60, glides: [[0.9, 0.2, 65]] };
    const heard = await heardIn(play([string]));
    const { glides } = steelNote(heard, string);
    expect(glides.map(({ kind, toMidi }) => [kind, Math.round(toMidi)])).toEqual([["bar", 65]]);
  });

  it("is not made up where the hand only shakes", async () => {
    const string: Played = { startSec: 0.3, endSec: 3, midi: 67, vibrato: { rateHz: 6, depthCents: 40 } };
    // Without anything else the record's own tuning could not be told from the hand's.
    const bass = [0.3, 0.9, 1.5, 2.1].map((startSec) => ({ startSec, endSec: startSec + 0.5, midi: 43 }));
    const heard = matching(await heardIn(play([string], { bass })), string);
    expect(heard).toHaveLength(1);
    expect(heard[0]!.glides).toEqual([]);
    expect(heard[0]!.midi).toBeCloseTo(67, 1);
    expect(heard[0]!.endSec).toBeGreaterThan(2.8);
  });
});
