import { describe, expect, it } from "vitest";
import type { BeatGrid } from "@/lib/notation/barGrid";
import { numberChart } from "@/lib/notation/chart";
import type { Key } from "@/lib/theory/key";

const G: Key = { tonic: "G", mode: "major" };

/** A beat a second from 0; bars of the given lengths. */
function gridOf(...bars: number[]): BeatGrid {
  const inBar = bars.flatMap((beats) => Array.from({ length: beats }, (_, index) => index + 1));
  return { beatsSec: inBar.map((_, index) => index), inBar, beatsPerBar: 4 };
}

/** Changes that hold one after the other from `fromSec`. */
function inTurn(changes: [label: string, beats: number][], fromSec = 0) {
  let startSec = fromSec;
  return changes.map(([label, beats]) => {
    startSec += beats;
    return { startSec: startSec - beats, endSec: startSec, label };
  });
}

const rows = (changes: [string, number][], grid: BeatGrid, fromSec = 0) =>
  numberChart({ title: "Chart", key: G, grid, changes: inTurn(changes, fromSec) })
    .split("\n")
    .filter((line) => line.startsWith("bar"))
    .map((line) => line.replaceAll(/ +/g, " "));

describe("a number chart", () => {
  it("writes one number a bar, four bars a row, a held change again in every bar", () => {
    const changes: [string, number][] = [
      ["G:maj", 8],
      ["C:maj", 4],
      ["G:maj", 4],
      ["D:7", 4],
    ];
    expect(rows(changes, gridOf(4, 4, 4, 4, 4))).toEqual(["bar 1: 1 1 4 1", "bar 5: 57"]);
  });

  // Split bars: doczz.net/doc/2569692 (J. Riley): two numbers are equal halves; dots above are beats each.
  it("puts a split bar in brackets, with dots only where the shares differ", () => {
    const even: [string, number][] = [
      ["E:min", 2],
      ["D:maj", 2],
      ["G:maj", 4],
    ];
    expect(rows(even, gridOf(4, 4))).toEqual(["bar 1: (6- 5) 1"]);
    const uneven: [string, number][] = [
      ["G:maj", 3],
      ["D:maj/3", 1],
      ["G:maj", 4],
    ];
    expect(rows(uneven, gridOf(4, 4))).toEqual(["bar 1: (1... 5/7.) 1"]);
  });

  it("takes the length of most bars for the usual one, not that of the longest", () => {
    const changes: [string, number][] = [
      ["G:maj", 4],
      ["C:maj", 6],
      ["G:maj", 8],
    ];
    const grid = { ...gridOf(4, 6, 4, 4, 4), beatsPerBar: 6 };
    expect(rows(changes, grid)).toEqual(["bar 1: 1 [6/4: 4] 1 1"]);
    const chart = numberChart({ title: "Chart", key: G, grid, changes: inTurn(changes) });
    expect(chart).toContain("4 beats to the bar");
  });

  it("marks a change that comes an eighth early", () => {
    const changes: [string, number][] = [
      ["G:maj", 3.5],
      ["C:maj", 4.5],
    ];
    expect(rows(changes, gridOf(4, 4))).toEqual(["bar 1: 1 4^"]);
  });

  it("names a bar of another length, and sets a pickup before bar 1", () => {
    const changes: [string, number][] = [
      ["G:maj", 4],
      ["D:maj", 2],
      ["G:maj", 4],
    ];
    expect(rows(changes, gridOf(4, 2, 4))).toEqual(["bar 1: 1 [2/4: 5] 1"]);
    const grid: BeatGrid = { beatsSec: [0, 1, 2, 3, 4], inBar: [4, 1, 2, 3, 4], beatsPerBar: 4 };
    const pickup: [string, number][] = [
      ["D:7", 1],
      ["G:maj", 4],
    ];
    expect(rows(pickup, grid)).toEqual(["bar 1: [pickup: 57] 1"]);
  });

  it("leaves blanks where nothing is written, and says no chord as N.C.", () => {
    const changes = [...inTurn([["N", 4]]), ...inTurn([["G:maj", 4]], 8)];
    const chart = numberChart({ title: "Chart", key: G, grid: gridOf(4, 4, 4), changes });
    expect(chart).toMatch(/bar {3}1: {2}N\.C\. {2}_ +1$/m);
    expect(chart).toContain("_  no change written");
    expect(chart).not.toContain("a dot for each beat");
  });

  it("lists changes by time where the beats are not known, in letters where home is not", () => {
    const changes = inTurn(
      [
        ["G:maj", 61.5],
        ["D:7", 4],
      ],
      2,
    );
    const chart = numberChart({ title: "Chart", key: null, grid: null, changes, tuningCents: -1 });
    expect(chart).toContain(" 0:02.0  G\n");
    expect(chart).toContain(" 1:03.5  D7\n");
    expect(chart).toContain("1 cent below A440");
  });

  it("is ASCII and says plainly that nothing is written yet", () => {
    const chart = numberChart({ title: "Señor ♭", key: G, grid: gridOf(4), changes: [], tempoBpm: 91.7 });
    expect(chart).toMatch(/^[ -~\n]+$/);
    expect(chart).toContain("No changes are written yet.");
    expect(chart).toContain("92 beats a minute");
  });
});
