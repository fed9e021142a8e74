/** How a least-squares problem is solved. */
export interface LeastSquaresOptions {
  /** Most sweeps over all coefficients. */
  sweeps: number;
  /** A sweep that moves no coefficient by as much as this is the last. */
  tolerance: number;
  /** Taken off the pull on every coefficient: an L1 cost that keeps weak ones at 0. */
  sparsity: number;
  /** Coefficients that stay at 0. */
  barred?: ArrayLike<number> | null;
}

/**
 * Coefficients, none below 0, with which rows best add up to a target: the non-negative least squares of C. L. Lawson
 * and R. J. Hanson, "Solving Least Squares Problems", 1974 (ch. 23), here by coordinate descent on the normal equations
 * (V. Franc, V. Hlavac and M. Navara, "Sequential coordinate-wise algorithm for the non-negative least squares problem",
 * CAIP 2005), which needs few sweeps where most coefficients are 0.
 * @param gram inner products of the rows, size squared, row by row
 * @param rest inner products of the rows with what is not yet explained of the target; it is brought up to date
 * @param into where to begin, with `rest` to match (zeros, with `rest` those of the whole target), and the result
 */
export function nonNegativeLeastSquares(
  gram: Float64Array,
  rest: Float64Array,
  into: Float64Array,
  { sweeps, tolerance, sparsity, barred = null }: LeastSquaresOptions,
): void {
  const size = rest.length;
  for (let sweep = 0; sweep < sweeps; sweep++) {
    let largest = 0;
    for (let n = 0; n < size; n++) {
      if (barred?.[n]) continue;
      const row = n * size;
      const next = Math.max(0, into[n]! + (rest[n]! - sparsity) / gram[row + n]!);
      const step = next - into[n]!;
      if (step === 0) continue;
      into[n] = next;
      largest = Math.max(largest, Math.abs(step));
      for (let m = 0; m < size; m++) rest[m]! -= step * gram[row + m]!;
    }
    if (largest < tolerance) break;
  }
}
