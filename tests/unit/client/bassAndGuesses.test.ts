import { describe, expect, it } from "vitest";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import { nextGuess } from "@/lib/client/song/guesses";
import { divisionWords, freeWords, gridSureWords, meterText } from "@/lib/client/song/meterWords";
import { typedPitchClass } from "@/lib/client/song/typedPitch";
import { midiToDegree } from "@/lib/theory/scaleDegree";
import { midiToName } from "@/lib/theory/spelling";
import { nearestPitch } from "@/lib/units/pitch";

const G = { tonic: "G", mode: "major" } as const;
const A_MINOR = { tonic: "A", mode: "minor" } as const;

describe("bass notes as numbers of home", () => {
  // Degrees of the major scale on the tonic, as lib/theory counts them; G2 is MIDI 43 where C4 is 60.
  it("counts from home and names the note", () => {
    expect([43, 45, 47, 48, 50, 41, 46].map((midi) => midiToDegree(midi, G))).toEqual([
      "1",
      "2",
      "3",
      "4",
      "5",
      "b7",
      "b3",
    ]);
    expect(midiToDegree(36, A_MINOR)).toBe("b3");
    expect([midiToName(43, G), midiToName(46, G)]).toEqual(["G2", "Bb2"]);
  });

  it("reads a number of home or a letter, and nothing else", () => {
    expect(["1", "5", "7", "c", "G"].map((typed) => typedPitchClass(typed, G))).toEqual([7, 2, 6, 0, 7]);
    expect(["0", "8", "h", "12", ""].map((typed) => typedPitchClass(typed, G))).toEqual(
      Array.from({ length: 5 }, () => null),
    );
  });

  it("takes the pitch nearest to where the note was", () => {
    expect(nearestPitch(2, 43)).toBe(38);
    expect(nearestPitch(11, 43)).toBe(47);
    expect(nearestPitch(7, 43)).toBe(43);
    expect(nearestPitch(1, 43)).toBe(37);
  });
});

describe("the next guess", () => {
  const guesses = ["4", "2-", "6-"];
  it("goes round, from the one that stands", () => {
    expect(nextGuess(guesses, (guess) => guess === "4")).toBe("2-");
    expect(nextGuess(guesses, (guess) => guess === "6-")).toBe("4");
  });
  it("begins with the likeliest where something else stands", () => {
    expect(nextGuess(guesses, () => false)).toBe("4");
  });
  it("is none where there is no other", () => {
    expect(nextGuess([], () => false)).toBeNull();
    expect(nextGuess(["4"], () => true)).toBeNull();
  });
});

describe("how a bar is counted", () => {
  it("is written short", () => {
    expect([meterText(4, 2), meterText(3, 2), meterText(6, 2), meterText(2, 3), meterText(4, 3)]).toEqual([
      "4/4",
      "3/4",
      "6/8",
      "6/8 in two",
      "4/4 swung",
    ]);
  });
  it("tells where time is free", () => {
    const beatsSec = Array.from({ length: 16 }, (_, index) => 1 + index / 2);
    const grid = makeSongGrid(
      { beatsSec, inBar: beatsSec.map((_, index) => (index % 4) + 1), beatsPerBar: 4 },
      9,
    )!;
    const words = (...freeStretches: { startSec: number; endSec: number }[]) =>
      freeWords({ freeStretches }, grid);
    expect(words()).toBe("");
    expect(words({ startSec: 0, endSec: 1 })).toBe("Free time until 0:01.");
    expect(words({ startSec: 3, endSec: 5 }, { startSec: 5, endSec: 9 })).toBe(
      "Free time in bar 2, from bar 3 to 4.",
    );
  });
  it("tells how sure the machine is of the beats and of the bars, apart, while it is pencil", () => {
    const stamp = { id: "g", madeBy: "machine", madeAtMs: 0, editedBy: "machine", editedAtMs: 0 };
    const beats = {
      beatsSec: [0, 1],
      inBar: [1, 2],
      beatsPerBar: 2,
      division: 2 as const,
      freeStretches: [],
    };
    const sure = { confidence: 0.72, beatsConfidence: 0.9, barsConfidence: 0.8 };
    const grid = { ...stamp, ...beats, ...sure, mark: "pencil" as const };
    expect(gridSureWords(grid)).toBe("beats 90 %, bars 80 % sure");
    expect(gridSureWords({ ...grid, mark: "ink" })).toBeNull();
    expect(gridSureWords({ ...grid, barsConfidence: null })).toBeNull();
  });
  it("is told in a sentence where it is not plain", () => {
    expect(divisionWords(4, 2)).toBe("");
    expect(divisionWords(2, 3)).toBe("Each beat falls into three: 6/8, counted in two.");
    expect(divisionWords(4, 3)).toBe("Each beat falls into three: it swings, or is 12/8 counted in four.");
  });
});
