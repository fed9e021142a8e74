import { describe, expect, it } from "vitest";
import { type BeatGrid, beatToInBar, gridBars } from "@/lib/notation/barGrid";
import { doubleBeats, halveBeats } from "@/lib/notation/beats/beatRate";
import { setDownbeat } from "@/lib/notation/beats/downbeat";
import { addBeatAfter, moveBeat, removeBeat, shiftBeats } from "@/lib/notation/beats/editBeats";
import { freeAt, markFree, unmarkFree } from "@/lib/notation/beats/freeTime";
import { meterRuns, setMeter, usualMeter } from "@/lib/notation/beats/meter";
import { barLengths, gridOf } from "./anyGrid";

const placesOf = ({ inBar }: BeatGrid) => inBar.join("");

describe("a downbeat that is moved", () => {
  const grid = gridOf(4, 4, 4);

  it("takes all others with it, and what lies before the first is a pickup", () => {
    expect(placesOf(setDownbeat(grid, 5, "song"))).toBe("412341234123");
    expect(placesOf(setDownbeat(grid, 7, "song"))).toBe("234123412341");
    expect(placesOf(setDownbeat(grid, 3, "song"))).toBe("234123412341");
  });

  it("keeps odd bars", () => {
    expect(placesOf(setDownbeat(gridOf(4, 2, 4), 5, "song"))).toBe("4123412123");
  });

  it("from there on only leaves what comes before", () => {
    expect(placesOf(setDownbeat(grid, 6, "onward"))).toBe("123412123412");
    expect(placesOf(setDownbeat(grid, 5, "onward"))).toBe("123411234123");
  });

  it("stays where it is a downbeat already", () => {
    expect(setDownbeat(grid, 4, "song").inBar).toEqual(grid.inBar);
    expect(setDownbeat(grid, 4, "onward").inBar).toEqual(grid.inBar);
  });
});

describe("a metre", () => {
  it("is told for the whole song from the bar at hand", () => {
    expect(placesOf(setMeter(gridOf(4, 4, 4), 5, 3, "song"))).toBe("312312312312");
  });

  it("is told from a bar on, and goes on past the end", () => {
    const told = setMeter(gridOf(4, 4, 4, 4, 4), 9, 3, "onward");
    expect(barLengths(told)).toEqual([4, 4, 3, 3, 3, 3]);
    expect(told.beatsPerBar).toBe(4);
    expect(
      gridBars(told, undefined, 20)
        .map((bar) => bar.endBeat - bar.startBeat)
        .slice(2, 8),
    ).toEqual([3, 3, 3, 3, 3, 3]);
  });

  it("is told of one bar, and the later ones begin as much earlier or later", () => {
    expect(barLengths(setMeter(gridOf(4, 4, 4), 5, 2, "bar"))).toEqual([4, 2, 4, 2]);
    expect(barLengths(setMeter(gridOf(4, 4, 4), 5, 6, "bar"))).toEqual([4, 6, 2]);
  });

  it("is read in runs of bars", () => {
    expect(meterRuns(gridOf(4, 4, 2, 3, 3, 3))).toEqual([
      { fromBar: 1, toBar: 2, beatsPerBar: 4 },
      { fromBar: 3, toBar: 3, beatsPerBar: 2 },
      { fromBar: 4, toBar: 6, beatsPerBar: 3 },
    ]);
    expect(usualMeter(gridOf(4, 4, 2, 3, 3, 3))).toBe(3);
    expect(usualMeter(gridOf(4, 4, 2, 4, 3, 3, 3))).toBe(4);
  });

  it("goes on before the first beat as the first bars do", () => {
    const grid = setMeter(setMeter(gridOf(3, 3, 3, 3, 3), 0, 4, "song"), 8, 3, "onward");
    expect(barLengths(grid)).toEqual([4, 4, 3, 3, 1]);
    expect([-1, -4, -5].map((beat) => beatToInBar(grid, beat))).toEqual([4, 1, 4]);
  });
});

describe("beats", () => {
  it("twice as many in the same bars", () => {
    const twice = doubleBeats(gridOf(3, 3));
    expect(placesOf(twice)).toBe("12345612345");
    expect(twice.beatsSec.slice(0, 4)).toEqual([0, 0.25, 0.5, 0.75]);
    expect(twice.beatsPerBar).toBe(6);
  });

  it("twice as many part the bars that would grow too long, and no others", () => {
    const twice = doubleBeats(gridOf(4, 9, 4));
    expect(barLengths(twice)).toEqual([8, 9, 9, 7]);
    expect(twice.beatsPerBar).toBe(9);
  });

  it("half as many: bars of four become bars of two, three bars of three bars of three", () => {
    expect(placesOf(halveBeats(gridOf(4, 4)))).toBe("1212");
    const waltz = halveBeats(gridOf(3, 3, 3, 3));
    expect(placesOf(waltz)).toBe("123123");
    expect(waltz.beatsSec).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it("half as many keeps those on which the first bar begins", () => {
    const pickup: BeatGrid = { beatsSec: [0, 1, 2, 3, 4, 5], inBar: [4, 1, 2, 3, 4, 1], beatsPerBar: 4 };
    expect(halveBeats(pickup)).toMatchObject({ beatsSec: [1, 3, 5], inBar: [1, 2, 1], beatsPerBar: 2 });
  });

  it("are moved, added, taken out and shifted", () => {
    const grid = gridOf(4, 4);
    expect(moveBeat(grid, 2, 1.1).beatsSec[2]).toBe(1.1);
    expect(moveBeat(grid, 2, 3).beatsSec[2]).toBeCloseTo(1.4);
    expect(moveBeat(grid, 0, -1).beatsSec[0]).toBe(0);
    expect(barLengths(addBeatAfter(grid, 1))).toEqual([5, 4]);
    expect(barLengths(removeBeat(grid, 4))).toEqual([4, 3]);
    expect(removeBeat(grid, 0).beatsSec[0]).toBe(0.5);
    expect(shiftBeats(grid, -0.2).beatsSec[0]).toBeCloseTo(0.3);
    expect(placesOf(shiftBeats(grid, -0.2))).toBe("2341234");
  });
});

describe("free time", () => {
  const free = [{ startSec: 2, endSec: 4 }];

  it("joins what touches", () => {
    expect(markFree(free, { startSec: 4, endSec: 5 })).toEqual([{ startSec: 2, endSec: 5 }]);
    expect(markFree(free, { startSec: 0, endSec: 1 })).toEqual([{ startSec: 0, endSec: 1 }, ...free]);
  });

  it("is taken off a stretch, which may part one in two", () => {
    expect(unmarkFree(free, { startSec: 2.5, endSec: 3 })).toEqual([
      { startSec: 2, endSec: 2.5 },
      { startSec: 3, endSec: 4 },
    ]);
    expect(unmarkFree(free, { startSec: 0, endSec: 9 })).toEqual([]);
    expect(unmarkFree(free, { startSec: 5, endSec: 9 })).toEqual(free);
    expect(freeAt(free, 3)).toEqual(free[0]);
    expect(freeAt(free, 4)).toBeNull();
  });
});
