import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BeatGrid, beatToInBar, beatToSeconds, gridBars, secondsToBeat } from "@/lib/notation/barGrid";

const gridArbitrary: fc.Arbitrary<BeatGrid> = fc
  .record({
    startSec: fc.double({ min: 0, max: 5, noNaN: true }),
    paces: fc.array(fc.double({ min: 0.2, max: 1.5, noNaN: true }), { maxLength: 40 }),
    metres: fc.array(fc.integer({ min: 2, max: 6 }), { minLength: 24, maxLength: 24 }),
    pickup: fc.integer({ min: 0, max: 1 }),
    beatsPerBar: fc.integer({ min: 2, max: 6 }),
  })
  .map(({ startSec, paces, metres, pickup, beatsPerBar }) => {
    const beatsSec = [startSec];
    for (const pace of paces) beatsSec.push((beatsSec.at(-1) ?? 0) + pace);
    const places = metres.flatMap((metre) => Array.from({ length: metre }, (_, index) => index + 1));
    return { beatsSec, inBar: places.slice(pickup, pickup + beatsSec.length), beatsPerBar };
  });

const steady: BeatGrid = {
  beatsSec: Array.from({ length: 9 }, (_, index) => 1 + index * 0.5),
  inBar: [4, 1, 2, 3, 4, 1, 2, 3, 4],
  beatsPerBar: 4,
};

describe("seconds and beats", () => {
  it("are inverse everywhere, past both ends too", () => {
    fc.assert(
      fc.property(gridArbitrary, fc.double({ min: -30, max: 90, noNaN: true }), (grid, timeSec) => {
        expect(beatToSeconds(grid, secondsToBeat(grid, timeSec))).toBeCloseTo(timeSec, 6);
      }),
    );
  });

  it("put every beat of the grid on a whole number", () => {
    fc.assert(
      fc.property(gridArbitrary, (grid) => {
        for (const [beat, sec] of grid.beatsSec.entries()) {
          expect(secondsToBeat(grid, sec)).toBe(beat);
          expect(beatToSeconds(grid, beat)).toBeCloseTo(sec, 9);
        }
      }),
    );
  });

  it("rise together", () => {
    fc.assert(
      fc.property(
        gridArbitrary,
        fc.double({ min: -30, max: 90, noNaN: true }),
        fc.double({ min: 0.001, max: 10, noNaN: true }),
        (grid, timeSec, laterSec) => {
          expect(secondsToBeat(grid, timeSec + laterSec)).toBeGreaterThan(secondsToBeat(grid, timeSec));
        },
      ),
    );
  });

  it("go on at the pace of the end, and at 120 beats a minute where there is only one beat", () => {
    expect(beatToSeconds(steady, -2)).toBeCloseTo(0);
    expect(beatToSeconds(steady, 10)).toBeCloseTo(6);
    const lone: BeatGrid = { beatsSec: [2], inBar: [1], beatsPerBar: 4 };
    expect(secondsToBeat(lone, 3)).toBeCloseTo(2);
    expect(secondsToBeat(lone, 1)).toBeCloseTo(-2);
  });
});

describe("bars", () => {
  it("number the first downbeat's bar 1 and a pickup 0", () => {
    const bars = gridBars(steady);
    expect(bars.map(({ number, startBeat, endBeat }) => [number, startBeat, endBeat])).toEqual([
      [0, 0, 1],
      [1, 1, 5],
      [2, 5, 9],
    ]);
    expect(bars[0]?.firstInBar).toBe(4);
    expect(bars[1]).toMatchObject({ startSec: 1.5, endSec: 3.5 });
  });

  it("fill the pickup's bar and go back where the stretch begins before the grid", () => {
    const bars = gridBars(steady, 0.2, 1.6);
    expect(bars.map((bar) => bar.number)).toEqual([0, 1]);
    expect(bars[0]).toMatchObject({ startBeat: -3, firstInBar: 1, endBeat: 1 });
    expect(gridBars(steady, -2.6, 0).map((bar) => bar.number)).toEqual([-2, -1, 0]);
  });

  it("follow a change of metre", () => {
    const grid: BeatGrid = {
      beatsSec: [0, 1, 2, 3, 4, 5, 6, 7],
      inBar: [1, 2, 3, 4, 1, 2, 1, 2],
      beatsPerBar: 4,
    };
    expect(gridBars(grid).map((bar) => bar.endBeat - bar.startBeat)).toEqual([4, 2, 4]);
  });

  it("join without gaps, cover the stretch and keep their numbers whatever stretch is asked for", () => {
    fc.assert(
      fc.property(
        gridArbitrary,
        fc.double({ min: -10, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (grid, fromSec, lengthSec) => {
          const bars = gridBars(grid, fromSec, fromSec + lengthSec);
          expect(bars[0]!.startSec).toBeLessThanOrEqual(fromSec + 1e-5);
          expect(bars.at(-1)!.endSec).toBeGreaterThanOrEqual(fromSec + lengthSec - 1e-5);
          for (const [index, bar] of bars.entries()) {
            expect(beatToInBar(grid, bar.startBeat)).toBe(bar.firstInBar);
            const next = bars[index + 1];
            if (next === undefined) continue;
            expect(next.startBeat).toBe(bar.endBeat);
            expect(next.number).toBe(bar.number + 1);
          }
          const known = new Map(gridBars(grid).map((bar) => [bar.startBeat, bar.number]));
          for (const bar of bars) {
            const number = known.get(bar.startBeat);
            if (number !== undefined) expect(bar.number).toBe(number);
          }
        },
      ),
    );
  });

  it("are none where there are no beats", () => {
    expect(gridBars({ beatsSec: [], inBar: [], beatsPerBar: 4 })).toEqual([]);
  });
});
