import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type CheapestPath, cheapestPath } from "@/lib/places/cheapestPath";

const costs = fc.double({ min: -5, max: 5, noNaN: true });
const chain = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 5 }).chain((sizes) =>
  fc.record({
    states: fc.tuple(...sizes.map((size) => fc.array(costs, { minLength: size, maxLength: size }))),
    steps: fc.array(
      fc.array(fc.array(costs, { minLength: 4, maxLength: 4 }), { minLength: 4, maxLength: 4 }),
      {
        minLength: 5,
        maxLength: 5,
      },
    ),
  }),
);

type Step = (layer: number, from: number, to: number) => number;

function search(states: number[][], step: Step): CheapestPath {
  return cheapestPath({
    states,
    fillSteps: (layer, to, row) => {
      states[layer - 1]!.forEach((_, from) => {
        row[from] = step(layer, from, to);
      });
    },
  });
}

function costOf(states: number[][], step: Step, path: number[]): number {
  return path.reduce(
    (sum, state, layer) =>
      sum + states[layer]![state]! + (layer > 0 ? step(layer, path[layer - 1]!, state) : 0),
    0,
  );
}

function everyPath(states: number[][]): number[][] {
  return states.reduce<number[][]>(
    (paths, layer) => paths.flatMap((path) => layer.map((_, i) => [...path, i])),
    [[]],
  );
}

describe("cheapest path", () => {
  it("is as cheap as the cheapest of all paths, and costs what it says", () => {
    fc.assert(
      fc.property(chain, ({ states, steps }) => {
        const step: Step = (layer, from, to) => steps[layer]![from]![to]!;
        const found = search(states, step);
        const cheapest = Math.min(...everyPath(states).map((path) => costOf(states, step, path)));
        expect(found.total).toBeCloseTo(cheapest, 9);
        expect(costOf(states, step, found.chosen)).toBeCloseTo(cheapest, 9);
      }),
    );
  });

  it("knows for each state the cheapest whole path through it", () => {
    fc.assert(
      fc.property(chain, ({ states, steps }) => {
        const step: Step = (layer, from, to) => steps[layer]![from]![to]!;
        const found = search(states, step);
        const { through } = found;
        const paths = everyPath(states).map((path) => ({ path, cost: costOf(states, step, path) }));
        through.forEach((layer, at) => {
          layer.forEach((cost, state) => {
            const forced = paths.filter(({ path }) => path[at] === state).map((each) => each.cost);
            expect(cost).toBeCloseTo(Math.min(...forced), 9);
            const way = found.chosenThrough(at, state);
            expect(way[at]).toBe(state);
            expect(costOf(states, step, way)).toBeCloseTo(cost, 9);
            const { before, after } = found.neighboursThrough(at, state);
            expect([before, after]).toEqual([way[at - 1] ?? -1, way[at + 1] ?? -1]);
          });
        });
      }),
    );
  });

  it("goes no way that cannot be gone", () => {
    const step: Step = (_, from, to) => (from === to ? 0 : Number.POSITIVE_INFINITY);
    const states = [
      [0, 1],
      [5, 1],
      [0, 0],
    ];
    const found = search(states, step);
    expect(found).toMatchObject({ chosen: [1, 1, 1], total: 2 });
    expect(found.chosenThrough(2, 0)).toEqual([0, 0, 0]);
    expect([...found.through[2]!]).toEqual([5, 2]);
  });

  it("takes the first of equals, and nothing where there is nothing", () => {
    expect(
      search(
        [
          [1, 1],
          [2, 2],
        ],
        () => 0,
      ).chosen,
    ).toEqual([0, 0]);
    expect(search([], () => 0)).toMatchObject({ chosen: [], total: 0, through: [] });
  });
});
