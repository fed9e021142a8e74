import { describe, expect, it } from "vitest";
import { countIn } from "@/lib/client/playback/countIn";
import { ladderSpeed, timesToTop } from "@/lib/client/playback/speedLadder";

/** Beats at 120 a minute, four to the bar, from a quarter of a second on. */
const GRID = {
  beatsSec: Array.from({ length: 17 }, (_, index) => 0.25 + 0.5 * index),
  inBar: Array.from({ length: 17 }, (_, index) => (index % 4) + 1),
  beatsPerBar: 4,
};
const LADDER = { isOn: true, startSpeed: 0.5, stepSpeed: 0.1, times: 3, endSpeed: 0.75 };

describe("counting in", () => {
  it("clicks a bar at the pace of the record, so that the next click would be the downbeat on which it begins", () => {
    const counted = countIn(GRID, 2.25, 1, 1)!;
    expect(counted.lengthSec).toBeCloseTo(2, 9);
    expect(counted.clicks.map(({ afterSec }) => afterSec)).toEqual([0, 0.5, 1, 1.5]);
    expect(counted.clicks.map(({ isFirst }) => isFirst)).toEqual([true, false, false, false]);
  });

  it("is as slow as the record will be", () => {
    const counted = countIn(GRID, 2.25, 2, 0.5)!;
    expect(counted.lengthSec).toBeCloseTo(8, 9);
    expect(counted.clicks[1]!.afterSec).toBeCloseTo(1, 9);
    expect(counted.clicks).toHaveLength(8);
  });

  it("leads to the first beat after a place between two, and knows where in the bar that is", () => {
    // 0.2 s before the third beat of a bar.
    const counted = countIn(GRID, 3.05, 1, 1)!;
    expect(counted.lengthSec).toBeCloseTo(2 - 0.2, 9);
    expect(counted.clicks.map(({ isFirst }) => isFirst)).toEqual([false, false, true, false]);
  });

  it("goes on before the first beat that is known, and after the last, as the grid does", () => {
    expect(countIn(GRID, 0, 1, 1)!.lengthSec).toBeCloseTo(2 - 0.25, 9);
    expect(countIn(GRID, 30.25, 1, 1)!.lengthSec).toBeCloseTo(2, 9);
  });

  it("follows a grid that slows down, by the bar that begins there", () => {
    const slowing = {
      ...GRID,
      beatsSec: [0, 0.5, 1, 1.5, 2, 2.6, 3.2, 3.8, 4.4],
      inBar: GRID.inBar.slice(0, 9),
    };
    expect(countIn(slowing, 2, 1, 1)!.lengthSec).toBeCloseTo(2.4, 9);
  });

  it("is none where no bars are asked for", () => {
    expect(countIn(GRID, 2.25, 0, 1)).toBeNull();
  });
});

describe("a speed ladder", () => {
  it("climbs a step after so many times through, and stays at its end", () => {
    const speeds = Array.from({ length: 12 }, (_, times) => ladderSpeed(LADDER, times));
    expect(speeds).toEqual([0.5, 0.5, 0.5, 0.6, 0.6, 0.6, 0.7, 0.7, 0.7, 0.75, 0.75, 0.75]);
    expect(ladderSpeed(LADDER, timesToTop(LADDER))).toBe(0.75);
    expect(ladderSpeed(LADDER, timesToTop(LADDER) - 1)).toBeLessThan(0.75);
  });

  it("leads down where its end is slower", () => {
    const down = { ...LADDER, startSpeed: 1, endSpeed: 0.8, times: 1 };
    expect([0, 1, 2, 3].map((times) => ladderSpeed(down, times))).toEqual([1, 0.9, 0.8, 0.8]);
    expect(timesToTop(down)).toBe(2);
  });
});
