import type { LogisticModel } from "@/lib/hearing/notes/LogisticModel";

/** What is known of a case by name, the share of it that came true (1 or 0 where it is so or not), and its weight. */
export interface Observed {
  evidence: Readonly<Record<string, number>>;
  share: number;
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
  cases: readonly Observed[],
  ridge = 1,
): LogisticModel<Name> {
  const total = cases.reduce((sum, { weight }) => sum + weight, 0);
  const average = (value: (one: Observed) => number) =>
    cases.reduce((sum, one) => sum + one.weight * value(one), 0) / total;
  const means = names.map((name) => average(({ evidence }) => evidence[name]!));
  const spreads = names.map((name, j) =>
    Math.sqrt(average(({ evidence }) => (evidence[name]! - means[j]!) ** 2) + 1e-12),
  );
  const rows = cases.map(({ evidence }) =>
    Float64Array.of(1, ...names.map((name, j) => (evidence[name]! - means[j]!) / spreads[j]!)),
  );
  const size = names.length + 1;
  const weights = new Array<number>(size).fill(0);
  for (let step = 0; step < STEPS; step++) {
    const gradient = weights.map((w, j) => (j > 0 ? -ridge * w : 0));
    const curvature = weights.map((_, j) =>
      Float64Array.from(weights, (__, k) => (j === k && j > 0 ? ridge : 0)),
    );
    rows.forEach((row, i) => {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += row[j]! * weights[j]!;
      const p = 1 / (1 + Math.exp(-sum));
      const { weight, share } = cases[i]!;
      for (let j = 0; j < size; j++) {
        gradient[j]! += weight * (share - p) * row[j]!;
        const scaled = weight * p * (1 - p) * row[j]!;
        // Symmetric: the lower half is enough.
        for (let k = 0; k <= j; k++) curvature[j]![k]! += scaled * row[k]!;
      }
    });
    for (let j = 0; j < size; j++) for (let k = 0; k < j; k++) curvature[k]![j] = curvature[j]![k]!;
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

/** Mean nats lost by saying these probabilities of the cases, by weight; none counts as nearer to 0 or 1 than 1e-4. */
export function logLoss(
  said: readonly number[],
  cases: readonly Pick<Observed, "share" | "weight">[],
): number {
  let [loss, weights] = [0, 0];
  cases.forEach(({ share, weight }, i) => {
    const p = Math.min(1 - 1e-4, Math.max(1e-4, said[i]!));
    loss -= weight * (share * Math.log(p) + (1 - share) * Math.log(1 - p));
    weights += weight;
  });
  return loss / weights;
}

/** Gaussian elimination with partial pivoting. */
function solve(matrix: readonly Float64Array[], right: readonly number[]): number[] {
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
