/** The value below which a share of the others lies, by nearest rank; not a number where there are none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Median, 95th of a hundred and worst, as words. */
export function spreadWords(values: readonly number[], unit: string, digits = 1): string {
  const [middle, high] = [quantile(values, 0.5), quantile(values, 0.95)].map((value) =>
    value.toFixed(digits),
  );
  return `median ${middle} ${unit}, 95th ${high}, worst ${Math.max(...values).toFixed(digits)}`;
}

/** How much a value grows with each step, by least squares over the values in order. */
export function growthOf(values: readonly number[]): number {
  const middle = (values.length - 1) / 2;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = values.reduce((sum, _, at) => sum + (at - middle) ** 2, 0);
  return spread === 0
    ? 0
    : values.reduce((sum, value, at) => sum + (at - middle) * (value - mean), 0) / spread;
}
