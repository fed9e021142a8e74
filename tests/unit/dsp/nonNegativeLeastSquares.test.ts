import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nonNegativeLeastSquares } from "@/lib/dsp/nonNegativeLeastSquares";

const OPTIONS = { sweeps: 5_000, tolerance: 1e-12, sparsity: 0 };

function gramOf(rows: readonly number[][]): Float64Array {
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
  return Float64Array.from(rows.flatMap((a) => rows.map((b) => dot(a, b))));
}

function solve(rows: readonly number[][], target: readonly number[], barred?: number[]) {
  const rest = Float64Array.from(rows, (row) => row.reduce((sum, x, i) => sum + x * target[i]!, 0));
  const into = new Float64Array(rows.length);
  nonNegativeLeastSquares(gramOf(rows), rest, into, { ...OPTIONS, barred: barred ?? null });
  return { into, rest };
}

describe("non-negative least squares", () => {
  it("finds the coefficients that a target was added up from", () => {
    const rows = [
      [1, 0.5, 0, 0],
      [0, 1, 0.5, 0],
      [0, 0, 1, 0.5],
    ];
    const target = [2, 1, 1.5, 0.75];
    const { into } = solve(rows, target);
    [2, 0, 1.5].forEach((wanted, i) => {
      expect(into[i]).toBeCloseTo(wanted, 6);
    });
  });

  it("meets the conditions of Kuhn and Tucker: no pull where a coefficient stands, none upwards where it is 0 (Lawson & Hanson 1974, ch. 23)", () => {
    const number = fc.double({ min: 0, max: 1, noNaN: true });
    const row = fc
      .array(number, { minLength: 6, maxLength: 6 })
      .filter((values) => Math.hypot(...values) > 0.3);
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 5 }),
        fc.array(number, { minLength: 6, maxLength: 6 }),
        (rows, target) => {
          // Rows of almost one direction share their coefficients as they please: these are told apart.
          const apart = rows.map((values, i) => values.map((value, k) => value + (k === i ? 2 : 0)));
          const { into, rest } = solve(apart, target);
          for (let n = 0; n < apart.length; n++) {
            expect(into[n]).toBeGreaterThanOrEqual(0);
            if (into[n]! > 1e-9) expect(Math.abs(rest[n]!)).toBeLessThan(1e-6);
            else expect(rest[n]!).toBeLessThan(1e-6);
          }
        },
      ),
    );
  });

  it("leaves barred coefficients at 0", () => {
    const rows = [
      [1, 0.4],
      [0.4, 1],
    ];
    const { into } = solve(rows, [1, 0.4], [1, 0]);
    expect(into[0]).toBe(0);
    expect(into[1]).toBeCloseTo(0.8 / 1.16, 6);
  });
});
