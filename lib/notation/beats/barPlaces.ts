import type { BeatGrid } from "../barGrid";

/** Most beats that a bar may have in the shared song (its rule D56). */
export const LONGEST_BAR = 16;

/**
 * The beats that open bars, as indices into the grid, ascending: downbeats, and places that do not come after the one
 * before. A first beat that stands in the middle of its bar opens it at a negative index.
 */
export function barOpenings({ inBar }: BeatGrid): number[] {
  const openings = inBar.flatMap((place, beat) => {
    const isOpening = beat > 0 && (place === 1 || place <= (inBar[beat - 1] ?? 0));
    return isOpening ? [beat] : [];
  });
  return inBar.length === 0 ? [] : [1 - (inBar[0] ?? 1), ...openings];
}

/**
 * The grid with its bars opened by these beats and no others. A bar longer than `longest` is cut into bars of that
 * length and what is left. `beatsPerBar` becomes `longest`, since no place in a bar may lie beyond it (rule D56 of the shared song).
 * @param openings indices of beats, ascending; the first at most 0 (where it is more, the beats before it are a pickup
 * that ends a bar of `pickupLength`)
 * @param longest beats of the longest bar, 1 to 16
 * @param pickupLength beats of the bar that ends where the first opening begins
 */
export function withOpenings<G extends BeatGrid>(
  grid: G,
  openings: readonly number[],
  longest: number,
  pickupLength = longest,
): G {
  const limit = Math.min(LONGEST_BAR, Math.max(1, longest));
  const lead = Math.min(limit, Math.max(1, pickupLength));
  const first = openings[0] ?? 0;
  const inBar: number[] = [];
  let next = 0;
  for (let beat = 0; beat < grid.beatsSec.length; beat += 1) {
    if (beat < first) {
      inBar.push(((((lead - (first - beat)) % lead) + lead) % lead) + 1);
      continue;
    }
    while (next + 1 < openings.length && (openings[next + 1] ?? 0) <= beat) next += 1;
    inBar.push(((beat - (openings[next] ?? 0)) % limit) + 1);
  }
  return { ...grid, inBar, beatsPerBar: limit };
}
