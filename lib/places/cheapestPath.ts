/** A chain of layers of states to choose one from each: costs of the states and of the steps between them. */
export interface LayeredCosts {
  /** Cost of each state, by layer; every layer holds at least one. */
  states: readonly ArrayLike<number>[];
  /**
   * Writes into `row` the cost of the step from each state of layer `layer - 1` to state `to` of `layer` (1 and up): once on
   * the way there, once on the way back, the same both times.
   */
  fillSteps(layer: number, to: number, row: Float64Array): void;
}

export interface CheapestPath {
  /** Index chosen in each layer; of equals the first. */
  chosen: number[];
  /** Cost of the whole path; 0 where there are no layers. */
  total: number;
  /** For each state, the cost of the cheapest whole path that goes through it. */
  through: readonly Float64Array[];
  /** What that path chooses in each layer; of equals the first. */
  chosenThrough(layer: number, state: number): number[];
  /** What that path chooses in the layer before and in the one after; -1 at the ends. */
  neighboursThrough(layer: number, state: number): { before: number; after: number };
}

/**
 * The cheapest path through layers of states, exact, by dynamic programming forwards and backwards
 * (R. Bellman, Dynamic Programming, 1957). Costs may be negative; a step that cannot be made costs infinitely. Time
 * grows with the number of layers times the square of their size, memory with their size alone.
 */
export function cheapestPath({ states, fillSteps }: LayeredCosts): CheapestPath {
  const row = new Float64Array(states.reduce((most, { length }) => Math.max(most, length), 0));
  const forward: Float64Array[] = [];
  const cameFrom: Int32Array[] = [];
  for (let at = 0; at < states.length; at += 1) {
    const own = states[at]!;
    const sums = new Float64Array(own.length);
    const origins = new Int32Array(own.length);
    const before = forward[at - 1];
    for (let to = 0; to < own.length; to += 1) {
      let best = 0;
      let origin = 0;
      if (before !== undefined) {
        fillSteps(at, to, row);
        best = Number.POSITIVE_INFINITY;
        for (let from = 0; from < before.length; from += 1) {
          const sum = before[from]! + row[from]!;
          if (sum < best) {
            best = sum;
            origin = from;
          }
        }
      }
      sums[to] = best + own[to]!;
      origins[to] = origin;
    }
    forward.push(sums);
    cameFrom.push(origins);
  }
  const { backward, goesTo } = goBack(states, fillSteps, row);
  const through = forward.map((sums, at) => sums.map((sum, state) => sum + backward[at]![state]!));
  const chosenThrough = (layer: number, state: number): number[] => {
    const chosen = new Array<number>(forward.length).fill(0);
    for (let at = layer, here = state; at >= 0; at -= 1) {
      chosen[at] = here;
      here = cameFrom[at]![here]!;
    }
    for (let at = layer, here = state; at < forward.length; at += 1) {
      chosen[at] = here;
      here = goesTo[at]![here]!;
    }
    return chosen;
  };
  const neighboursThrough = (layer: number, state: number) => ({
    before: layer > 0 ? cameFrom[layer]![state]! : -1,
    after: layer + 1 < states.length ? goesTo[layer]![state]! : -1,
  });
  const last = forward.at(-1);
  if (last === undefined) return { chosen: [], total: 0, through, chosenThrough, neighboursThrough };
  const total = last.reduce((least, sum) => Math.min(least, sum), Number.POSITIVE_INFINITY);
  const chosen = chosenThrough(forward.length - 1, Math.max(0, last.indexOf(total)));
  return { chosen, total, through, chosenThrough, neighboursThrough };
}

/** For each state the cost of the cheapest way from it to the end, its own left out, and where that way goes next. */
function goBack(
  states: LayeredCosts["states"],
  fillSteps: LayeredCosts["fillSteps"],
  row: Float64Array,
): { backward: Float64Array[]; goesTo: Int32Array[] } {
  const backward = states.map(({ length }) => new Float64Array(length));
  const goesTo = states.map(({ length }) => new Int32Array(length));
  for (let at = states.length - 2; at >= 0; at -= 1) {
    const next = states[at + 1]!;
    const after = backward[at + 1]!;
    const best = backward[at]!.fill(Number.POSITIVE_INFINITY);
    const ways = goesTo[at]!;
    for (let to = 0; to < next.length; to += 1) {
      fillSteps(at + 1, to, row);
      const rest = next[to]! + after[to]!;
      for (let from = 0; from < best.length; from += 1) {
        const sum = row[from]! + rest;
        if (sum < best[from]!) {
          best[from] = sum;
          ways[from] = to;
        }
      }
    }
  }
  return { backward, goesTo };
}
