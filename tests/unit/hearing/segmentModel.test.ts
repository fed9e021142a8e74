import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  likeliestSegments,
  type Segment,
  type SegmentModel,
  segmentPosteriors,
} from "@/lib/hearing/segmentModel";

const STATES = 3;
const STEPS = 5;
const LONGEST = 3;

const rows = (count: number, width: number, min: number, max: number) =>
  fc.array(fc.array(fc.double({ min, max, noNaN: true }), { minLength: width, maxLength: width }), {
    minLength: count,
    maxLength: count,
  });

function shares(row: number[]): number[] {
  const sum = row.reduce((total, value) => total + value, 0);
  return row.map((value) => value / sum);
}

const models: fc.Arbitrary<SegmentModel> = fc
  .record({
    likelihoods: rows(STEPS, STATES, -4, 4),
    first: rows(1, STATES, 0.05, 1),
    moves: rows(STEPS * STATES, STATES, 0.05, 1),
    weights: rows(STEPS + 1, STEPS + 1, -2, 1),
    goesOn: fc.boolean(),
  })
  .map(({ likelihoods, first, moves, weights, goesOn }) => {
    const tables = Array.from({ length: STEPS }, (_, t) =>
      Float64Array.from(moves.slice(t * STATES, (t + 1) * STATES).flatMap(shares)),
    );
    return {
      likelihoods: likelihoods.map((row) => Float64Array.from(row)),
      logFirst: Float64Array.from(shares(first[0]!), Math.log),
      moves: (step) => tables[step]!,
      logSegment: (from, to) => weights[from]![to]!,
      longest: LONGEST,
      goesOn,
    };
  });

/** Every way to part the steps into segments, with its log weight by the definition of the model. */
function everyWay(model: SegmentModel): { segments: Segment[]; score: number }[] {
  const ways: { segments: Segment[]; score: number }[] = [];
  const extend = (segments: Segment[], score: number): void => {
    const from = segments.at(-1)?.to ?? 0;
    if (from === STEPS) {
      ways.push({ segments, score });
      return;
    }
    for (let to = from + 1; to <= Math.min(STEPS, model.goesOn ? STEPS : from + LONGEST); to++) {
      for (let state = 0; state < STATES; state++) {
        const before = segments.at(-1)?.state;
        const move =
          before === undefined
            ? model.logFirst[state]!
            : Math.log(model.moves(from)[before * STATES + state]!);
        let heard = 0;
        for (let t = from; t < to; t++) heard += model.likelihoods[t]![state]!;
        extend(
          [...segments, { state, from, to }],
          score + move + heard + model.logSegment(from, Math.min(to, from + LONGEST)),
        );
      }
    }
  };
  extend([], 0);
  return ways;
}

// Checked against the definition in S.-Z. Yu, "Hidden semi-Markov models", Artificial Intelligence 174 (2010),
// with every segmentation counted out.
describe("the segment model against every segmentation counted out", () => {
  it("finds the likeliest segments", () => {
    fc.assert(
      fc.property(models, (model) => {
        const ways = everyWay(model);
        const best = ways.reduce((top, way) => (way.score > top.score ? way : top));
        expect(likeliestSegments(model)).toEqual(best.segments);
      }),
      { numRuns: 60 },
    );
  });

  it("gives the posteriors of the definition", () => {
    fc.assert(
      fc.property(models, (model) => {
        const ways = everyWay(model);
        const total = ways.reduce((sum, { score }) => sum + Math.exp(score), 0);
        segmentPosteriors(model).forEach((row, t) => {
          row.forEach((value, state) => {
            const through = ways.filter(({ segments }) =>
              segments.some((one) => one.state === state && one.from <= t && t < one.to),
            );
            const share = through.reduce((sum, { score }) => sum + Math.exp(score), 0) / total;
            expect(value).toBeCloseTo(share, 8);
          });
        });
      }),
      { numRuns: 60 },
    );
  });

  it("holds over long records, whose likelihoods leave the range of numbers", () => {
    const count = 3000;
    const likelihoods = Array.from({ length: count }, (_, t) =>
      Float64Array.of(t < count / 2 ? 0 : -20, t < count / 2 ? -20 : 0),
    );
    const model: SegmentModel = {
      likelihoods,
      logFirst: Float64Array.of(Math.log(0.5), Math.log(0.5)),
      moves: () => Float64Array.of(0.5, 0.5, 0.5, 0.5),
      logSegment: () => -1,
      longest: 30,
    };
    const certain = segmentPosteriors(model);
    expect(certain[10]![0]).toBeGreaterThan(0.99);
    expect(certain[count - 10]![1]).toBeGreaterThan(0.99);
    expect(likeliestSegments(model).find(({ state }) => state === 1)!.from).toBe(count / 2);
  });

  it("holds where one long segment explains what no single step likes best", () => {
    const count = 3600;
    const likelihoods = Array.from({ length: count }, (_, t) =>
      Float64Array.of(-0.3, t % 2 === 0 ? 0 : -2, t % 2 === 0 ? -2 : 0),
    );
    const certain = segmentPosteriors({
      likelihoods,
      logFirst: new Float64Array(3).fill(Math.log(1 / 3)),
      moves: () => Float64Array.of(0, 0.5, 0.5, 0.5, 0, 0.5, 0.5, 0.5, 0),
      logSegment: (from) => (from === 0 ? 0 : -8),
      longest: count,
    });
    for (const step of [0, count / 2, count - 1]) expect(certain[step]![0]).toBeGreaterThan(0.99);
  });

  it("has nothing to say about no steps", () => {
    const empty: SegmentModel = {
      likelihoods: [],
      logFirst: new Float64Array(2),
      moves: () => new Float64Array(4),
      logSegment: () => 0,
      longest: 4,
    };
    expect(likeliestSegments(empty)).toEqual([]);
    expect(segmentPosteriors(empty)).toEqual([]);
  });
});
