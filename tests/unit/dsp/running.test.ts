import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median, parabolaOffset, runningMean } from "@/lib/dsp/running";

const series = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 60 });

describe("running statistics", () => {
  it("mean and median agree with their definitions at every place", () => {
    fc.assert(
      fc.property(series, fc.integer({ min: 0, max: 9 }), (values, reach) => {
        const means = runningMean(values, reach);
        values.forEach((_, i) => {
          const near = values.slice(Math.max(0, i - reach), i + reach + 1);
          expect(means[i]).toBeCloseTo(near.reduce((sum, value) => sum + value, 0) / near.length, 8);
          const middle = median(near);
          expect(near.filter((value) => value < middle).length).toBeLessThanOrEqual(near.length / 2);
          expect(near.filter((value) => value > middle).length).toBeLessThanOrEqual(near.length / 2);
        });
      }),
    );
  });

  it("the median of an even number is the mean of the middle two; of none it is NaN", () => {
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBeNaN();
  });
});

describe("the top of a parabola", () => {
  it("is found exactly from three of its points", () => {
    fc.assert(
      fc.property(fc.double({ min: -0.5, max: 0.5, noNaN: true }), (top) => {
        const at = (x: number): number => 5 - 2 * (x - top) ** 2;
        expect(parabolaOffset(at(-1), at(0), at(1))).toBeCloseTo(top, 9);
      }),
    );
  });

  it("stays at the middle where there is no top", () => {
    expect(parabolaOffset(1, 0, 1)).toBe(0);
    expect(parabolaOffset(1, 1, 1)).toBe(0);
  });
});
