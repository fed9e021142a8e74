import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { likeliestPath, posteriors, type StayOrChange } from "@/lib/hearing/stayOrChange";

const STATES = 3;
const STEPS = 5;

const rows = (min: number, max: number) =>
  fc.array(fc.array(fc.double({ min, max, noNaN: true }), { minLength: STATES, maxLength: STATES }), {
    minLength: STEPS,
    maxLength: STEPS,
  });

const models: fc.Arbitrary<StayOrChange> = fc
  .record({
    likelihoods: rows(-4, 4),
    targets: rows(0.05, 1),
    changeProbability: fc.array(fc.double({ min: 0.01, max: 0.9, noNaN: true }), {
      minLength: STEPS,
      maxLength: STEPS,
    }),
  })
  .map(({ likelihoods, targets, changeProbability }) => ({
    likelihoods: likelihoods.map((row) => Float64Array.from(row)),
    logTargets: targets.map((row) => {
      const sum = row.reduce((total, value) => total + value, 0);
      return Float64Array.from(row, (value) => Math.log(value / sum));
    }),
    changeProbability,
  }));

/** Every walk through the states, with its probability by the definition of the model. */
function everyWalk(model: StayOrChange): { walk: number[]; probability: number }[] {
  let walks = [{ walk: [] as number[], probability: 1 }];
  for (let t = 0; t < STEPS; t++) {
    walks = walks.flatMap(({ walk, probability }) =>
      Array.from({ length: STATES }, (_, s) => {
        const target = Math.exp(model.logTargets[t]![s]!);
        const change = model.changeProbability[t]!;
        const move = t === 0 ? target : change * target + (walk.at(-1) === s ? 1 - change : 0);
        return { walk: [...walk, s], probability: probability * move * Math.exp(model.likelihoods[t]![s]!) };
      }),
    );
  }
  return walks;
}

describe("the stay-or-change model against every walk counted out", () => {
  it("gives the posteriors of the definition", () => {
    fc.assert(
      fc.property(models, (model) => {
        const walks = everyWalk(model);
        const total = walks.reduce((sum, { probability }) => sum + probability, 0);
        posteriors(model).forEach((row, t) => {
          row.forEach((value, s) => {
            const through = walks.filter(({ walk }) => walk[t] === s);
            const share = through.reduce((sum, { probability }) => sum + probability, 0) / total;
            expect(value).toBeCloseTo(share, 8);
          });
        });
      }),
      { numRuns: 30 },
    );
  });

  it("finds a likeliest walk, a stay and a change into the same state being two ways", () => {
    fc.assert(
      fc.property(models, (model) => {
        const score = (walk: number[]): number =>
          walk.reduce((sum, s, t) => {
            const change = Math.log(model.changeProbability[t]!) + model.logTargets[t]![s]!;
            const stay = Math.log(1 - model.changeProbability[t]!);
            const moved =
              t === 0 ? model.logTargets[0]![s]! : walk[t - 1] === s ? Math.max(stay, change) : change;
            return sum + moved + model.likelihoods[t]![s]!;
          }, 0);
        const best = Math.max(...everyWalk(model).map(({ walk }) => score(walk)));
        expect(score(likeliestPath(model))).toBeCloseTo(best, 8);
      }),
      { numRuns: 30 },
    );
  });

  it("has nothing to say about no steps", () => {
    const empty = { likelihoods: [], changeProbability: [], logTargets: [] };
    expect(likeliestPath(empty)).toEqual([]);
    expect(posteriors(empty)).toEqual([]);
  });
});
