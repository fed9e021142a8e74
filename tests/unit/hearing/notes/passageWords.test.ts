import { describe, expect, it } from "vitest";
import type { GlideKind, HeardNote } from "@/lib/hearing/Hearing";
import { passageTraits, strokesOf } from "@/lib/hearing/notes/passageTraits";
import { passageWords } from "@/lib/hearing/notes/passageWords";

function note(startSec: number, midi: number, glides: [GlideKind, number][] = [], steel = 0.9): HeardNote {
  return {
    startSec,
    endSec: startSec + 0.4,
    midi,
    confidence: 0.9,
    steel,
    glides: glides.map(([kind, toMidi], i) => ({
      kind,
      toMidi,
      atSec: startSec + 0.1 * (i + 1),
      durationSec: 0.1,
    })),
  };
}

/** A pair every half second. */
function pairs(...pitches: [number, number][]): HeardNote[] {
  return pitches.flatMap(([low, high], i) => [note(0.5 * i + 0.01, high), note(0.5 * i, low)]);
}

// The harmonised scale of G in sixths on two strings of E9: intervals of 8 and 9 semitones only (music theory).
const SIXTHS = pairs([62, 71], [64, 72], [66, 74], [67, 76], [69, 78], [71, 79], [72, 81], [74, 83]);

describe("the words for a passage", () => {
  it("say that nothing was played", () => {
    expect(passageTraits([])).toBeNull();
    expect(passageWords([])).toEqual([]);
  });

  it("know a harmonised scale in sixths that climbs by steps", () => {
    expect(passageTraits(SIXTHS)).toEqual({
      texture: "pairs",
      pairs: { count: 8, interval: "sixths", spacing: "far" },
      motion: "stepwise",
      direction: "up",
      glides: { pedal: 0, bar: 0, unsure: 0 },
    });
    expect(passageWords(SIXTHS)).toEqual([
      "pairs",
      "mostly sixths, far apart",
      "the top line goes by steps",
      "moves up the neck",
      "no glides",
    ]);
  });

  it.each([
    [2, "seconds", "near"],
    [3, "thirds", "near"],
    [4, "thirds", "near"],
    [5, "fourths", "near"],
    [6, "tritones", "far"],
    [7, "fifths", "far"],
    [9, "sixths", "far"],
    [10, "sevenths", "far"],
    [12, "octaves", "far"],
    [16, "wide intervals", "far"],
  ] as const)("name pairs %i semitones apart %s, %s", (size, interval, spacing) => {
    const heard = passageTraits(pairs([60, 60 + size], [62, 62 + size], [64.2, 64 + size]));
    expect(heard?.pairs).toEqual({ count: 3, interval, spacing });
  });

  it("name no interval where none leads", () => {
    const mixed = pairs([60, 63], [60, 69], [60, 67]);
    expect(passageTraits(mixed)?.pairs).toEqual({ count: 3, interval: null, spacing: "far" });
    const both = pairs([60, 63], [60, 69]);
    expect(passageTraits(both)?.pairs?.spacing).toBe("both");
    expect(passageWords(both)).toContain("no one interval, some near together, some far apart");
  });

  it.each([
    ["stepwise", [60, 62, 64, 65, 67]],
    ["chromatic", [60, 61, 62, 63, 64]],
    ["leaping", [60, 64, 67, 72, 76]],
    ["steps and leaps", [60, 64, 65, 69, 71]],
    ["still", [60, 60, 60]],
  ] as const)("tell a %s line", (motion, line) => {
    expect(passageTraits(line.map((midi, i) => note(0.5 * i, midi)))?.motion).toBe(motion);
  });

  it("follow the top line through its glides", () => {
    const line = [note(0, 60, [["bar", 61]]), note(1, 62, [["bar", 63]]), note(2, 64)];
    expect(passageTraits(line)?.motion).toBe("chromatic");
    expect(passageTraits(line.map((each) => ({ ...each, glides: [] })))?.motion).toBe("stepwise");
  });

  it("tell which way a passage goes", () => {
    const up = [60, 62, 64, 65, 67, 69].map((midi, i) => note(0.5 * i, midi));
    const down = up.map((each) => ({ ...each, midi: 120 - each.midi }));
    const around = [60, 64, 62, 65, 60, 62].map((midi, i) => note(0.5 * i, midi));
    expect([up, down, around].map((notes) => passageTraits(notes)?.direction)).toEqual([
      "up",
      "down",
      "staying",
    ]);
  });

  it("count pedals, the bar and what cannot be told", () => {
    const notes = [
      note(0, 64, [
        ["pedal", 66],
        ["pedal", 64],
      ]),
      note(1, 60, [["bar", 62]]),
      note(2, 60, [["unsure", 61]]),
    ];
    expect(passageTraits(notes)?.glides).toEqual({ pedal: 2, bar: 1, unsure: 1 });
    expect(passageWords(notes).slice(-3)).toEqual([
      "pedals or levers glide twice",
      "the bar glides once",
      "one glide by pedal or bar, not to be told",
    ]);
  });

  it("speak of the steel, not of the band behind it", () => {
    const band = [40, 52, 55, 59].flatMap((midi) => [0, 0.5, 1].map((at) => note(at, midi, [], 0.1)));
    expect(passageWords([...band, ...SIXTHS])).toEqual(passageWords(SIXTHS));
    expect(passageWords(band)[0]).toBe("three or more strings together");
  });

  it("take a roll of the fingers for one stroke, and no more", () => {
    expect(
      strokesOf([note(0, 60), note(0.04, 64), note(0.3, 67), note(0.38, 69)]).map((s) => s.length),
    ).toEqual([2, 1, 1]);
  });
});
