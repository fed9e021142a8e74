import { describe, expect, it } from "vitest";
import {
  beatIndexAt,
  beatsToSec,
  makeBeatGrid,
  placeWords,
  secToBeats,
  snapToBeat,
  stepBeat,
} from "@/lib/client/axis/beatGrid";

/** An upbeat, then two bars of four at 120 beats a minute. */
const GRID = makeBeatGrid({
  beatsSec: [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5],
  inBar: [4, 1, 2, 3, 4, 1, 2, 3, 4],
  beatsPerBar: 4,
})!;

describe("the beat grid", () => {
  it("counts bars from the first downbeat and reads the tempo off the beats", () => {
    expect(GRID.barOf).toEqual([0, 1, 1, 1, 1, 2, 2, 2, 2]);
    expect(GRID.tempoBpm).toBeCloseTo(120);
  });

  it("has no grid without beats", () => {
    expect(makeBeatGrid(null)).toBeNull();
    expect(makeBeatGrid({ beatsSec: [], inBar: [], beatsPerBar: 4 })).toBeNull();
  });

  it("finds the beat at or before a time", () => {
    expect(beatIndexAt(GRID, 0.2)).toBe(-1);
    expect(beatIndexAt(GRID, 1)).toBe(1);
    expect(beatIndexAt(GRID, 1.49)).toBe(1);
    expect(beatIndexAt(GRID, 60)).toBe(8);
  });

  it("goes from seconds to beats and back, beyond both ends too", () => {
    expect(secToBeats(GRID, 1.25)).toBeCloseTo(1.5);
    expect(secToBeats(GRID, 5.5)).toBeCloseTo(10);
    for (const sec of [0, 0.7, 1, 2.3, 4.5, 9])
      expect(beatsToSec(GRID, secToBeats(GRID, sec))).toBeCloseTo(sec);
  });

  it("snaps to the nearest beat or part of a beat", () => {
    expect(snapToBeat(GRID, 1.2)).toBeCloseTo(1);
    expect(snapToBeat(GRID, 1.2, 2)).toBeCloseTo(1.25);
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
    expect(placeWords(GRID, 0.6)).toBe("upbeat, beat 4");
    expect(placeWords(GRID, 0)).toBe("before bar 1");
    expect(placeWords(null, 3)).toBe("");
  });
});
