/** Orders two lists of numbers, as long as one another, by the first that differs. */
export function compareLists(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, index) => value !== b[index]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}
