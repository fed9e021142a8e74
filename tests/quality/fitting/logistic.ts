/** A case: what is known (the first feature stands for the bias and is 1), and the share that came true, 0 to 1. */
export interface Observed {
  features: readonly number[];
  share: number;
}

const STEPS = 4_000;
const PACE = 0.5;

/** Weights of a logistic regression by steps up the gradient of the mean log likelihood. @param ridge pull towards 0 */
export function fitLogistic(cases: readonly Observed[], ridge: number): number[] {
  let weights = cases[0]!.features.map(() => 0);
  for (let step = 0; step < STEPS; step++) {
    const slope = weights.map((weight) => -2 * ridge * weight);
    for (const { features, share } of cases) {
      const miss = share - probability(features, weights);
      for (let j = 0; j < slope.length; j++) slope[j]! += (miss * features[j]!) / cases.length;
    }
    weights = weights.map((weight, j) => weight + PACE * slope[j]!);
  }
  return weights;
}

export function probability(features: readonly number[], weights: readonly number[]): number {
  return 1 / (1 + Math.exp(-features.reduce((sum, value, j) => sum + value * weights[j]!, 0)));
}

/** Mean nats lost by saying these probabilities where those shares came true. */
export function logLoss(said: readonly number[], shares: readonly number[]): number {
  const bounded = said.map((value) => Math.min(1 - 1e-4, Math.max(1e-4, value)));
  const losses = bounded.map(
    (value, i) => -shares[i]! * Math.log(value) - (1 - shares[i]!) * Math.log(1 - value),
  );
  return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}
