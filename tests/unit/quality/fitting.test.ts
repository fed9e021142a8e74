import { describe, expect, it } from "vitest";
import { fitConditionalLogit } from "../../quality/fitting/conditionalLogit";
import { foldsByRecord } from "../../quality/fitting/foldsByRecord";
import { fitLogistic, logLoss } from "../../quality/fitting/logistic";

describe("fits", () => {
  it("give the log odds of a table of two by two, by weight and by share", () => {
    // Of cases without the evidence a quarter come true, of those with it three quarters: log odds -ln 3 and ln 3.
    const [without, having] = [{ there: 0 }, { there: 1 }];
    const counted = [
      { evidence: without, share: 1, weight: 1 },
      { evidence: without, share: 0, weight: 3 },
      { evidence: having, share: 1, weight: 3 },
      { evidence: having, share: 0, weight: 1 },
    ];
    const shared = [
      { evidence: without, share: 0.25, weight: 1 },
      { evidence: having, share: 0.75, weight: 1 },
    ];
    for (const cases of [counted, shared]) {
      const { bias, weights } = fitLogistic(["there"], cases, 1e-9);
      expect(bias).toBeCloseTo(-Math.log(3), 3);
      expect(weights.there).toBeCloseTo(2 * Math.log(3), 3);
    }
    expect(Math.abs(fitLogistic(["there"], counted, 100).weights.there!)).toBeLessThan(0.2);
  });

  it("lose by weight what was said too little of", () => {
    const cases = [
      { share: 1, weight: 3 },
      { share: 0, weight: 1 },
    ];
    expect(logLoss([0.5, 0.5], cases)).toBeCloseTo(Math.LN2, 12);
    expect(logLoss([0.8, 0.4], cases)).toBeCloseTo(-(3 * Math.log(0.8) + Math.log(0.6)) / 4, 12);
    expect(logLoss([0, 0], cases)).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it("choose as often as was right: of two alternatives, a logistic regression on what lies between them", () => {
    const choice = (right: boolean) => ({ alternatives: [[1], [0]], right: [right, !right] });
    const [weight] = fitConditionalLogit([true, true, true, false].map(choice), 0);
    expect(weight).toBeCloseTo(Math.log(3), 2);
    // Nothing speaks against an alternative: a weight that would is 0.
    expect(fitConditionalLogit([false, false, true].map(choice), 0)).toEqual([0]);
  });

  it("leave out each record once, with all its parts", () => {
    const cases = Array.from({ length: 40 }, (_, i) => ({ id: `record ${i % 20}`, part: i }));
    const folds = foldsByRecord(cases);
    expect(folds.flatMap(({ leftOut }) => leftOut).sort((a, b) => a.part - b.part)).toEqual(cases);
    for (const { fitted, leftOut } of folds) {
      expect(fitted.length + leftOut.length).toBe(40);
      const ids = new Set(fitted.map(({ id }) => id));
      expect(leftOut.some(({ id }) => ids.has(id))).toBe(false);
    }
  });
});
