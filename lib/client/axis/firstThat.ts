/**
 * The first place that holds, where all after one that holds do too; found by halving.
 * @returns 0 to `count`, which says that none does
 */
export function firstThat(count: number, holds: (at: number) => boolean): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
