import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isGridBeats } from "@/lib/document/records/guards";
import { fitTaps } from "@/lib/notation/taps/fitTaps";
import { layTaps } from "@/lib/notation/taps/layTaps";
import type { Tap } from "@/lib/notation/taps/Tap";
import { seeded } from "../../../document/dice";
import { barLengths, gridOf } from "../beats/anyGrid";

const tap = (timeSec: number, isDownbeat = false): Tap => ({ timeSec, isDownbeat });

/** Numbers about 0 with a standard deviation of 1: twelve even ones, less six. */
function spread(next: () => number): number {
  return Array.from({ length: 12 }, next).reduce((sum, each) => sum + each, -6);
}

describe("taps to a steady beat", () => {
  it("give its pace and place, however long one taps with a hand that spreads by 3 % of the beat", () => {
    let good = 0;
    for (let seed = 0; seed < 100; seed += 1) {
      const next = seeded(seed);
      const periodSec = 0.3 + next();
      const count = 8 + Math.floor(next() * 50);
      const taps = Array.from({ length: count }, (_, beat) =>
        tap(5 + (beat + 0.03 * spread(next)) * periodSec),
      );
      const fitted = fitTaps(taps)!;
      expect(fitted.beatsSec).toHaveLength(count);
      // At its ends a line fitted by least squares is off by twice the hand's spread over the root of the count (textbook).
      const most = (3 * 2 * 0.03 * periodSec) / Math.sqrt(count);
      const offs = fitted.beatsSec.map((sec, beat) => Math.abs(sec - (5 + beat * periodSec)));
      if (fitted.isSteady && Math.max(...offs) < most) good += 1;
    }
    expect(good).toBeGreaterThan(95);
  });

  it("are one that was left out, one that bounced and one that slipped away from it", () => {
    const beats = Array.from({ length: 16 }, (_, beat) => 2 + beat * 0.5);
    const taps = beats.flatMap((sec, beat) => {
      if (beat === 5) return [];
      if (beat === 9) return [tap(sec), tap(sec + 0.08)];
      if (beat === 12) return [tap(sec + 0.15)];
      return [tap(sec)];
    });
    const fitted = fitTaps(taps)!;
    expect(fitted.isSteady).toBe(true);
    expect(fitted.beatsSec).toHaveLength(16);
    for (const [beat, sec] of fitted.beatsSec.entries()) expect(sec).toBeCloseTo(beats[beat]!, 3);
  });

  it("count together over the rounds of a loop", () => {
    const round = (late: number) => Array.from({ length: 8 }, (_, beat) => tap(10 + beat * 0.6 + late));
    const fitted = fitTaps([...round(0.02), ...round(-0.02).slice(2)])!;
    expect(fitted.beatsSec).toHaveLength(8);
    expect(fitted.periodSec).toBeCloseTo(0.6, 2);
    expect(fitted.beatsSec[7]).toBeCloseTo(14.2, 1);
  });

  it("are too few under four, and none at no pace", () => {
    expect(fitTaps([])).toBeNull();
    expect(fitTaps([tap(1), tap(1.5), tap(2)])).toBeNull();
    expect(fitTaps([tap(1), tap(9), tap(19), tap(29)])).toBeNull();
    expect(fitTaps([tap(1), tap(1), tap(1), tap(1)])).toBeNull();
  });
});

describe("taps to a tempo that breathes", () => {
  /** From 0.5 s to 0.75 s a beat over 32 beats. */
  const beats = Array.from({ length: 32 }, (_, beat) => 3 + beat * 0.5 + (0.25 / 64) * beat * beat);

  it("are followed", () => {
    const next = seeded(7);
    const fitted = fitTaps(beats.map((sec) => tap(sec + 0.012 * spread(next))))!;
    expect(fitted.isSteady).toBe(false);
    expect(fitted.beatsSec).toHaveLength(32);
    for (const [beat, sec] of fitted.beatsSec.entries())
      expect(Math.abs(sec - beats[beat]!)).toBeLessThan(0.04);
  });

  it("are followed past a slip", () => {
    const fitted = fitTaps(beats.map((sec, beat) => tap(beat === 15 ? sec + 0.2 : sec)))!;
    expect(Math.abs(fitted.beatsSec[15]! - beats[15]!)).toBeLessThan(0.03);
  });
});

describe("beats that were tapped", () => {
  const at = { durationSec: 20, beatsPerBar: 4 };
  const fitted = (from: number, count: number, downbeats: number[] = []) =>
    fitTaps(Array.from({ length: count }, (_, beat) => tap(from + beat * 0.5, downbeats.includes(beat))))!;

  it("are laid over the whole record, the first tap on a downbeat", () => {
    const grid = layTaps(null, fitted(5.25, 8), "record", at);
    expect(grid.beatsSec[0]).toBeCloseTo(0.25);
    expect(grid.beatsSec.at(-1)).toBeCloseTo(19.75);
    const first = grid.beatsSec.findIndex((sec) => Math.abs(sec - 5.25) < 1e-6);
    expect(grid.inBar[first]).toBe(1);
    expect(new Set(barLengths(grid).slice(1, -1))).toEqual(new Set([4]));
    expect(isGridBeats(grid)).toBe(true);
  });

  it("take their metre from the downbeats that were tapped", () => {
    const grid = layTaps(null, fitted(5, 10, [1, 4, 7]), "record", at);
    expect(grid.beatsPerBar).toBe(3);
    const second = grid.beatsSec.findIndex((sec) => Math.abs(sec - 5.5) < 1e-6);
    expect(grid.inBar[second]).toBe(1);
  });

  it("leave the grid as it is where they were not tapped", () => {
    const grid = gridOf(4, 4, 4, 4, 4);
    const laid = layTaps(grid, fitted(4.1, 5), "tapped", at);
    expect(laid.beatsSec.slice(0, 8)).toEqual(grid.beatsSec.slice(0, 8));
    expect(laid.beatsSec.slice(8, 13)).toEqual([4.1, 4.6, 5.1, 5.6, 6.1].map((sec) => expect.closeTo(sec)));
    expect(laid.beatsSec.slice(13)).toEqual(grid.beatsSec.slice(13));
    expect(laid.inBar.slice(8, 12)).toEqual([1, 2, 3, 4]);
    expect(isGridBeats(laid)).toBe(true);
  });

  it("make a grid that the shared song takes, whatever was tapped", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 0, max: 20, noNaN: true }), fc.boolean()), { maxLength: 40 }),
        fc.constantFrom("record" as const, "tapped" as const),
        (taps, reach) => {
          const any = fitTaps(taps.map(([timeSec, isDownbeat]) => tap(timeSec, isDownbeat)));
          if (!any) return;
          expect(isGridBeats(layTaps(gridOf(4, 3, 4, 4, 4), any, reach, at))).toBe(true);
        },
      ),
    );
  });
});
