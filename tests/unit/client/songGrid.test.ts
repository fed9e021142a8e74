import { describe, expect, it } from "vitest";
import { barAt, barFor, makeSongGrid, placeWords, snapToBeat, stepBeat } from "@/lib/client/axis/songGrid";

/** An upbeat, then two bars of four at 120 beats a minute, in a record that goes on for two bars more. */
const GRID = makeSongGrid(
  {
    beatsSec: [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5],
    inBar: [4, 1, 2, 3, 4, 1, 2, 3, 4],
    beatsPerBar: 4,
  },
  9,
)!;

describe("the grid of a song", () => {
  it("reads the tempo off the beats", () => {
    expect(GRID.tempoBpm).toBeCloseTo(120);
  });

  it("is not there without beats", () => {
    expect(makeSongGrid(null, 10)).toBeNull();
    expect(makeSongGrid({ beatsSec: [], inBar: [], beatsPerBar: 4 }, 10)).toBeNull();
  });

  it("finds the bar of a time, past the last beat too", () => {
    expect(barAt(GRID, 0.2)).toBeNull();
    expect(barAt(GRID, 0.7)?.number).toBe(0);
    expect(barAt(GRID, 1)?.number).toBe(1);
    expect(barAt(GRID, 2.99)?.number).toBe(1);
    expect(barAt(GRID, 5.2)?.number).toBe(3);
  });

  it("finds the bar that is meant by a time: not one that is mostly over, nor a pickup", () => {
    expect([0, 0.5, 1, 1.9, 2.4, 8.9].map((sec) => barFor(GRID, sec)?.number)).toEqual([0, 1, 1, 1, 2, 4]);
  });

  it("snaps to the nearest beat or part of a beat, never before the start", () => {
    expect(snapToBeat(GRID, 1.2)).toBeCloseTo(1);
    expect(snapToBeat(GRID, 1.2, 2)).toBeCloseTo(1.25);
    expect(snapToBeat(GRID, 0.01)).toBe(0);
  });

  it("steps from beat to beat, and to the next one from between two", () => {
    expect(stepBeat(GRID, 1, 1)).toBeCloseTo(1.5);
    expect(stepBeat(GRID, 1, -1)).toBeCloseTo(0.5);
    expect(stepBeat(GRID, 1.2, 1)).toBeCloseTo(1.5);
    expect(stepBeat(GRID, 1.2, -1)).toBeCloseTo(1);
    expect(stepBeat(GRID, 1, 1, 4)).toBeCloseTo(1.125);
  });

  it("says bar and beat in words", () => {
    expect(placeWords(GRID, 3.1)).toBe("bar 2 beat 1");
    expect(placeWords(GRID, 4.4)).toBe("bar 2 beat 3");
    expect(placeWords(GRID, 2.98)).toBe("bar 2 beat 1");
    expect(placeWords(GRID, 0.6)).toBe("upbeat, beat 4");
    expect(placeWords(GRID, 0)).toBe("before the first beat");
    expect(placeWords(null, 3)).toBe("");
  });
});
