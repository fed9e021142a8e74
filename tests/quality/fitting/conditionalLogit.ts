/** One choice: the features of each alternative, and which of them were right to choose. */
export interface Choice {
  alternatives: readonly (readonly number[])[];
  right: readonly boolean[];
}

const STEPS = 2_000;
const PACE = 0.02;

/**
 * Weights that make the right alternatives likeliest (D. McFadden, "Conditional logit analysis of qualitative choice
 * behavior", in "Frontiers in Econometrics", 1974), none below 0, found by adaptive steps up the gradient (D. Kingma and
 * J. Ba, "Adam", ICLR 2015). Where several alternatives were right, their probabilities count together.
 * @param ridge pull of each weight towards 0, on features of unit spread
 */
export function fitConditionalLogit(choices: readonly Choice[], ridge: number): number[] {
  const rows = choices.flatMap(({ alternatives }) => alternatives);
  const size = rows[0]?.length ?? 0;
  const spreads = Array.from({ length: size }, (_, j) => spreadOf(rows.map((row) => row[j]!)) || 1);
  const scaled = choices.map(({ alternatives, right }) => ({
    right,
    alternatives: alternatives.map((row) => row.map((value, j) => value / spreads[j]!)),
  }));
  const weights = spreads.map(() => 0.3);
  const means = spreads.map(() => 0);
  const squares = spreads.map(() => 0);
  for (let step = 1; step <= STEPS; step++) {
    const slope = slopeAt(weights, scaled, ridge);
    for (let j = 0; j < size; j++) {
      means[j] = 0.9 * means[j]! + 0.1 * slope[j]!;
      squares[j] = 0.999 * squares[j]! + 0.001 * slope[j]! ** 2;
      const mean = means[j]! / (1 - 0.9 ** step);
      const square = squares[j]! / (1 - 0.999 ** step);
      weights[j] = Math.max(0, weights[j]! + (PACE * mean) / (Math.sqrt(square) + 1e-8));
    }
  }
  return weights.map((weight, j) => weight / spreads[j]!);
}

export function scoresOf(alternatives: Choice["alternatives"], weights: readonly number[]): number[] {
  return alternatives.map((row) => row.reduce((sum, value, j) => sum + value * weights[j]!, 0));
}

/** Number of the alternative with the highest score. */
export function chosen(alternatives: Choice["alternatives"], weights: readonly number[]): number {
  const scores = scoresOf(alternatives, weights);
  return scores.indexOf(Math.max(...scores));
}

function slopeAt(weights: readonly number[], choices: readonly Choice[], ridge: number): number[] {
  const slope = weights.map((weight) => -2 * ridge * weight);
  for (const { alternatives, right } of choices) {
    const scores = scoresOf(alternatives, weights);
    const top = Math.max(...scores);
    const odds = scores.map((score) => Math.exp(score - top));
    const all = odds.reduce((sum, value) => sum + value, 0);
    const rightOnes = odds.reduce((sum, value, i) => sum + (right[i] ? value : 0), 1e-300);
    alternatives.forEach((row, i) => {
      const pull = (right[i] ? odds[i]! / rightOnes : 0) - odds[i]! / all;
      for (let j = 0; j < slope.length; j++) slope[j]! += pull * row[j]!;
    });
  }
  return slope;
}

function spreadOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}
