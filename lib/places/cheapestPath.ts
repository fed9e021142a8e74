/** A chain of layers of states to choose one from each: costs of the states and of the steps between them. */
export interface LayeredCosts {
  /** Cost of each state, by layer; every layer holds at least one. */
  states: readonly (readonly number[])[];
  /** Cost of the step from state `from` of layer `layer - 1` to state `to` of `layer` (1 and up). */
  step(layer: number, from: number, to: number): number;
}

export interface CheapestPath {
  /** Index chosen in each layer; of equals the first. */
  chosen: number[];
  /** Cost of the whole path; 0 where there are no layers. */
  total: number;
  /** For each state, the cost of the cheapest whole path that goes through it. */
  through: number[][];
  /** What that path chooses in each layer; of equals the first. */
  chosenThrough(layer: number, state: number): number[];
}

/**
 * The cheapest path through layers of states, exact, by dynamic programming forwards and backwards
 * (R. Bellman, Dynamic Programming, 1957). Costs may be negative; a step that cannot be made costs infinitely. Time
 * grows with the number of layers times the square of their size.
 */
export function cheapestPath({ states, step }: LayeredCosts): CheapestPath {
  const forward: number[][] = [];
  const backward: number[][] = [];
  const cameFrom: number[][] = [];
  const goesTo: number[][] = [];
  const steps: Float64Array[] = [];
  states.forEach((layer, at) => {
    const before = forward[at - 1];
    const costs = new Float64Array((before?.length ?? 0) * layer.length);
    const sums: number[] = [];
    const origins: number[] = [];
    for (let to = 0; to < layer.length; to += 1) {
      let best = before === undefined ? 0 : Number.POSITIVE_INFINITY;
      let origin = 0;
      for (let from = 0; from < (before?.length ?? 0); from += 1) {
        const cost = step(at, from, to);
        costs[from * layer.length + to] = cost;
        const sum = (before?.[from] ?? 0) + cost;
        if (sum < best) [best, origin] = [sum, from];
      }
      sums.push(best + (layer[to] ?? 0));
      origins.push(origin);
    }
    forward.push(sums);
    cameFrom.push(origins);
    steps.push(costs);
  });
  for (let at = states.length - 1; at >= 0; at -= 1) {
    const next = states[at + 1];
    const after = backward[at + 1];
    const costs = steps[at + 1];
    const ways: number[] = [];
    backward[at] = (states[at] ?? []).map((_, from) => {
      if (next === undefined || after === undefined || costs === undefined) return 0;
      let best = Number.POSITIVE_INFINITY;
      let way = 0;
      for (let to = 0; to < next.length; to += 1) {
        const sum = (costs[from * next.length + to] ?? 0) + (next[to] ?? 0) + (after[to] ?? 0);
        if (sum < best) [best, way] = [sum, to];
      }
      ways.push(way);
      return best;
    });
    goesTo[at] = ways;
  }
  const through = forward.map((sums, at) => sums.map((sum, state) => sum + (backward[at]?.[state] ?? 0)));
  const chosenThrough = (layer: number, state: number): number[] => {
    const chosen = new Array<number>(forward.length).fill(0);
    for (let at = layer, here = state; at >= 0; at -= 1) {
      chosen[at] = here;
      here = cameFrom[at]?.[here] ?? 0;
    }
    for (let at = layer, here = state; at < forward.length; at += 1) {
      chosen[at] = here;
      here = goesTo[at]?.[here] ?? 0;
    }
    return chosen;
  };
  const last = forward.at(-1);
  if (last === undefined) return { chosen: [], total: 0, through, chosenThrough };
  const total = Math.min(...last);
  return { chosen: chosenThrough(forward.length - 1, last.indexOf(total)), total, through, chosenThrough };
}
