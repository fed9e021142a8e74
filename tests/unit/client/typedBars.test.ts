import { describe, expect, it } from "vitest";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import { typedBars } from "@/lib/client/song/typedBars";

/** 16 bars of four half-second beats, after a pickup of one beat. */
const inBar = [4, ...Array.from({ length: 64 }, (_, index) => (index % 4) + 1)];
const grid = makeSongGrid({ beatsSec: inBar.map((_, index) => index / 2), inBar, beatsPerBar: 4 }, 32.5);

describe("typed bars", () => {
  it.each([
    ["9-12", 16.5, 24.5],
    [" bars 9 to 12 ", 16.5, 24.5],
    ["9 – 12", 16.5, 24.5],
    ["Bar 1", 0.5, 2.5],
    ["16", 30.5, 32.5],
    ["0", 0, 0.5],
  ])("reads %s from the start of the first to the end of the last", (text, startSec, endSec) => {
    const stretch = typedBars(text, grid);
    expect(stretch.startSec).toBeCloseTo(startSec, 9);
    expect(stretch.endSec).toBeCloseTo(endSec, 9);
  });

  it.each([
    ["", /names no bars/],
    ["verse", /names no bars: type 9-12/],
    ["1-2-3", /names no bars/],
    ["12-9", /Bar 9 comes before bar 12/],
    ["9-99", /bars 1 to 16/],
  ])("says why %s is none", (text, words) => {
    expect(() => typedBars(text, grid)).toThrow(words);
  });

  it("says so where no bars are known", () => {
    expect(() => typedBars("1-4", null)).toThrow(/not known yet/);
  });
});
