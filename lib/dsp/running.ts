/** Mean over `reach` values each way, fewer at the ends. */
export function runningMean(values: ArrayLike<number>, reach: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i]! + values[i]!;
  return Float64Array.from({ length: values.length }, (_, i) => {
    const low = Math.max(0, i - reach);
    const high = Math.min(values.length, i + reach + 1);
    return (sums[high]! - sums[low]!) / (high - low);
  });
}

/** Median of the values, the mean of the middle two where their number is even; NaN of none. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Makes a standard deviation of a median of distances, for normally spread ones (F. R. Hampel, JASA 69 (1974)). */
export const MEDIAN_TO_DEVIATION = 1.4826;

/** Place of the top of the parabola through three neighbouring values, -0.5 to 0.5 from the middle one. */
export function parabolaOffset(before: number, at: number, after: number): number {
  const curve = before - 2 * at + after;
  if (curve >= 0) return 0;
  return Math.max(-0.5, Math.min(0.5, (before - after) / (2 * curve)));
}
