import { describe, expect, it } from "vitest";
import { binsByMass, type Judgement, reliability } from "../../quality/metrics/reliability";

const many = (count: number, said: number, rightCount: number, weight = 1): Judgement[] =>
  Array.from({ length: count }, (_, i) => ({ said, right: i < rightCount, weight }));

// Worked by hand from the definitions: Naeini et al. (AAAI 2015) for the error, Brier (1950) for the score.
describe("reliability", () => {
  it("has ten bins of one width, their mean certainties and the shares that were right", () => {
    const found = reliability([...many(60, 0.95, 57), ...many(40, 0.55, 20)])!;
    expect(found.bins.map(({ from, to, weight }) => [from, to, weight])).toEqual([
      [0.5, 0.6, 40],
      [0.9, 1, 60],
    ]);
    expect(found.bins[0]!.said).toBeCloseTo(0.55, 12);
    expect(found.bins[0]!.right).toBeCloseTo(0.5, 12);
    expect(found.bins[1]!.right).toBeCloseTo(0.95, 12);
    // (40 * 0.05 + 60 * 0) / 100
    expect(found.expectedCalibrationError).toBeCloseTo(0.02, 12);
    // (57 * 0.05^2 + 3 * 0.95^2 + 20 * 0.45^2 + 20 * 0.55^2) / 100 = (0.1425 + 2.7075 + 4.05 + 6.05) / 100
    expect(found.brier).toBeCloseTo(0.1295, 12);
    expect(found.weight).toBe(100);
  });

  it("weighs by time", () => {
    const found = reliability([
      { said: 0.8, right: true, weight: 9 },
      { said: 0.8, right: false, weight: 1 },
    ])!;
    expect(found.bins).toHaveLength(1);
    expect(found.bins[0]!.right).toBeCloseTo(0.9, 12);
    expect(found.expectedCalibrationError).toBeCloseTo(0.1, 12);
    // (9 * 0.2^2 + 1 * 0.8^2) / 10
    expect(found.brier).toBeCloseTo(0.1, 12);
  });

  it("is perfect where certainty and outcome are one, and as bad as can be where they are opposed", () => {
    const perfect = reliability([...many(50, 1, 50), ...many(50, 0, 0)])!;
    expect([perfect.expectedCalibrationError, perfect.brier]).toEqual([0, 0]);
    const opposed = reliability([...many(50, 1, 0), ...many(50, 0, 50)])!;
    expect([opposed.expectedCalibrationError, opposed.brier]).toEqual([1, 1]);
    // A coin that is said to be a coin: calibrated, but it tells nothing.
    const coin = reliability(many(100, 0.5, 50))!;
    expect([coin.expectedCalibrationError, coin.brier]).toEqual([0, 0.25]);
  });

  it("takes an edge into the bin above it, and certainty into the last", () => {
    const found = reliability([...many(50, 0.3, 10), ...many(50, 1, 50)])!;
    expect(found.bins.map(({ from }) => from)).toEqual([0.3, 0.9]);
  });

  it("has fewer bins of one weight where little is judged", () => {
    const said = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
    const judged = said.map((value) => ({ said: value, right: value > 0.45, weight: 1 }));
    expect(reliability(judged)!.bins).toHaveLength(1);
    expect(binsByMass(judged, 2).map(({ from, to, weight }) => [from, to, weight])).toEqual([
      [0.1, 0.4, 4],
      [0.5, 0.8, 4],
    ]);
    // Equal certainties are not torn apart.
    expect(binsByMass(many(6, 0.5, 3), 3)).toHaveLength(1);
  });

  it("says nothing of nothing", () => {
    expect(reliability([])).toBeNull();
    expect(reliability(many(3, 0.5, 1, 0))).toBeNull();
  });
});
