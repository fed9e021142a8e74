/**
 * A hidden Markov model whose state stays with a probability given for each step, and else moves to a state
 * drawn from a distribution of that step, so that every step costs only as many operations as there are states.
 * Viterbi and forward-backward after L. R. Rabiner, "A tutorial on hidden Markov models and selected
 * applications in speech recognition", Proc. IEEE 77 (1989).
 */
export interface StayOrChange {
  /** Log-likelihood of each state at each step. */
  likelihoods: readonly Float64Array[];
  /** Probability of a change just before each step, above 0 and under 1; the first is not used. */
  changeProbability: readonly number[];
  /** At each step, natural log of the probability of each state when a change comes there, and at the start. */
  logTargets: readonly Float64Array[];
}

/** The likeliest walk through the states, one a step. */
export function likeliestPath({ likelihoods, changeProbability, logTargets }: StayOrChange): number[] {
  if (likelihoods.length === 0) return [];
  const states = logTargets[0]!.length;
  let scores = Float64Array.from(logTargets[0]!, (target, s) => target + likelihoods[0]![s]!);
  const cameFrom: Int16Array[] = [];
  for (let t = 1; t < likelihoods.length; t++) {
    const change = Math.log(changeProbability[t]!);
    const stay = Math.log1p(-changeProbability[t]!);
    const top = indexOfLargest(scores);
    const from = new Int16Array(states);
    const next = new Float64Array(states);
    for (let s = 0; s < states; s++) {
      const moved = scores[top]! + change + logTargets[t]![s]!;
      const stayed = scores[s]! + stay;
      from[s] = stayed >= moved ? s : top;
      next[s] = Math.max(stayed, moved) + likelihoods[t]![s]!;
    }
    cameFrom.push(from);
    scores = next;
  }
  let state = indexOfLargest(scores);
  const path = [state];
  for (let t = cameFrom.length - 1; t >= 0; t--) {
    state = cameFrom[t]![state]!;
    path.push(state);
  }
  return path.reverse();
}

/** Probability of each state at each step, given all steps. */
export function posteriors({ likelihoods, changeProbability, logTargets }: StayOrChange): Float64Array[] {
  const states = logTargets[0]?.length ?? 0;
  const targets = logTargets.map((row) => row.map(Math.exp));
  const weights = likelihoods.map((row) => {
    const top = row[indexOfLargest(row)]!;
    return row.map((value) => Math.exp(value - top));
  });
  const forward: Float64Array[] = [];
  for (let t = 0; t < weights.length; t++) {
    const change = t === 0 ? 1 : changeProbability[t]!;
    const before = forward[t - 1];
    const row = weights[t]!.map(
      (w, s) => w * ((before ? (1 - change) * before[s]! : 0) + change * targets[t]![s]!),
    );
    forward.push(scaled(row));
  }
  let backward = new Float64Array(states).fill(1);
  const result: Float64Array[] = new Array(weights.length);
  for (let t = weights.length - 1; t >= 0; t--) {
    result[t] = scaled(forward[t]!.map((value, s) => value * backward[s]!));
    if (t === 0) break;
    const change = changeProbability[t]!;
    const ahead = weights[t]!.map((w, s) => w * backward[s]!);
    const anywhere = ahead.reduce((sum, value, s) => sum + value * targets[t]![s]!, 0);
    backward = scaled(ahead.map((value) => (1 - change) * value + change * anywhere));
  }
  return result;
}

function scaled(row: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const sum = row.reduce((total, value) => total + value, 0);
  return sum > 0 ? row.map((value) => value / sum) : row.fill(1 / row.length);
}

function indexOfLargest(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! > values[best]!) best = i;
  return best;
}
