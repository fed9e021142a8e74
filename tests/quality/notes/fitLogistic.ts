import type { LogisticModel } from "@/lib/hearing/notes/LogisticModel";

/** One example: evidence in the order of the names, whether it is so, and its weight. */
export interface Example {
  values: number[];
  holds: boolean;
  weight: number;
}

const STEPS = 25;
const TOLERANCE = 1e-6;
/** Thousandths are kept of weights. */
const ROUNDING = 1_000;

/**
 * Logistic regression by Newton's method (iteratively reweighted least squares), with a ridge penalty on standardised
 * evidence (S. le Cessie and J. C. van Houwelingen, "Ridge estimators in logistic regression", Applied Statistics 41,
 * 1992).
 * @param ridge penalty on the squares of the weights; the bias goes free
 */
export function fitLogistic<Name extends string>(
  names: readonly Name[],
  examples: readonly Example[],
  ridge = 1,
): LogisticModel<Name> {
  const total = examples.reduce((sum, { weight }) => sum + weight, 0);
  const average = (value: (example: Example) => number) =>
    examples.reduce((sum, example) => sum + example.weight * value(example), 0) / total;
  const means = names.map((_, j) => average(({ values }) => values[j]!));
  const spreads = names.map((_, j) =>
    Math.sqrt(average(({ values }) => (values[j]! - means[j]!) ** 2) + 1e-12),
  );
  const rows = examples.map(({ values }) => [1, ...values.map((x, j) => (x - means[j]!) / spreads[j]!)]);
  const size = names.length + 1;
  const weights = new Array<number>(size).fill(0);
  for (let step = 0; step < STEPS; step++) {
    const gradient = weights.map((w, j) => (j > 0 ? -ridge * w : 0));
    const curvature = weights.map((_, j) => weights.map((__, k) => (j === k && j > 0 ? ridge : 0)));
    rows.forEach((row, i) => {
      const p = 1 / (1 + Math.exp(-row.reduce((sum, x, j) => sum + x * weights[j]!, 0)));
      const { weight, holds } = examples[i]!;
      for (let j = 0; j < size; j++) {
        gradient[j]! += weight * ((holds ? 1 : 0) - p) * row[j]!;
        for (let k = 0; k < size; k++) curvature[j]![k]! += weight * p * (1 - p) * row[j]! * row[k]!;
      }
    });
    const change = solve(curvature, gradient);
    change.forEach((value, j) => {
      weights[j]! += value;
    });
    if (Math.max(...change.map(Math.abs)) < TOLERANCE) break;
  }
  const rounded = (value: number) => Math.round(value * ROUNDING) / ROUNDING;
  const slopes = names.map((_, j) => weights[j + 1]! / spreads[j]!);
  return {
    bias: rounded(weights[0]! - slopes.reduce((sum, slope, j) => sum + slope * means[j]!, 0)),
    weights: Object.fromEntries(
      names.map((name, j) => [name, rounded(slopes[j]!)]),
    ) as LogisticModel<Name>["weights"],
  };
}

/** Gaussian elimination with partial pivoting. */
function solve(matrix: readonly number[][], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const size = rows.length;
  for (let j = 0; j < size; j++) {
    let pivot = j;
    for (let k = j + 1; k < size; k++) if (Math.abs(rows[k]![j]!) > Math.abs(rows[pivot]![j]!)) pivot = k;
    [rows[j], rows[pivot]] = [rows[pivot]!, rows[j]!];
    for (let k = j + 1; k < size; k++) {
      const factor = rows[k]![j]! / rows[j]![j]!;
      for (let m = j; m <= size; m++) rows[k]![m]! -= factor * rows[j]![m]!;
    }
  }
  const result = new Array<number>(size).fill(0);
  for (let j = size - 1; j >= 0; j--) {
    let rest = rows[j]![size]!;
    for (let k = j + 1; k < size; k++) rest -= rows[j]![k]! * result[k]!;
    result[j] = rest / rows[j]![j]!;
  }
  return result;
}
