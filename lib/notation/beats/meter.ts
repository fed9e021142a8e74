import { type BeatGrid, gridBars } from "../barGrid";
import { barOpenings, LONGEST_BAR, withOpenings } from "./barPlaces";

/** How far a new metre reaches: the song, from its bar to the end, or that bar alone. */
export type MeterReach = "song" | "onward" | "bar";

/** Bars of one length that follow each other. */
export interface MeterRun {
  /** Number of its first bar, as `gridBars` counts them. */
  fromBar: number;
  toBar: number;
  beatsPerBar: number;
}

/**
 * The grid with other bars. The bar that holds `beat` is opened where it was.
 * @param beat index into the grid, in the first bar of the new metre; for the song, in a bar that keeps its place
 * @param beatsPerBar 1 to 16
 */
export function setMeter<G extends BeatGrid>(
  grid: G,
  beat: number,
  beatsPerBar: number,
  reach: MeterReach,
): G {
  const meter = Math.min(LONGEST_BAR, Math.max(1, Math.round(beatsPerBar)));
  const openings = barOpenings(grid);
  const at = openings.findLastIndex((opening) => opening <= beat);
  const from = openings[at] ?? 0;
  const count = grid.beatsSec.length;
  if (reach === "song") {
    // Counted both ways from the bar at hand, which is the one that its writer looked at.
    const all: number[] = [];
    for (let opening = from - Math.ceil(Math.max(0, from) / meter) * meter; opening < count; opening += meter)
      all.push(opening);
    return withOpenings(grid, all, meter);
  }
  const before = openings.slice(0, Math.max(0, at));
  const longestBefore = longestOf([...before, from]);
  if (reach === "onward") {
    const onward: number[] = [];
    for (let opening = from; opening < count; opening += meter) onward.push(opening);
    return withOpenings(grid, [...before, ...onward], Math.max(longestBefore, meter));
  }
  const next = openings[at + 1];
  // The last bar of the grid has no end of its own: past it the song goes on in its metre.
  const moved = next === undefined ? 0 : meter - (next - from);
  const after = openings.slice(at + 1).map((opening) => opening + moved);
  const all = [...before, from, ...(next === undefined ? [from + meter] : after)];
  const longest = Math.max(longestOf(all), next === undefined ? meter : grid.beatsPerBar, meter);
  return withOpenings(
    grid,
    all.filter((opening) => opening < count),
    Math.min(longest, LONGEST_BAR),
  );
}

/** Runs of whole bars of one length, in order; a pickup belongs to none, nor does a last bar that is cut off. */
export function meterRuns(grid: BeatGrid): MeterRun[] {
  const runs: MeterRun[] = [];
  const count = grid.beatsSec.length;
  for (const { number, firstInBar, startBeat, endBeat } of gridBars(grid)) {
    if (firstInBar > 1 || (endBeat > count && runs.length > 0)) continue;
    const last = runs.at(-1);
    if (last?.beatsPerBar === endBeat - startBeat) last.toBar = number;
    else runs.push({ fromBar: number, toBar: number, beatsPerBar: endBeat - startBeat });
  }
  return runs;
}

/** How many beats most bars have; of those as frequent the longer. What the grid says where it has no whole bar. */
export function usualMeter(grid: BeatGrid): number {
  const counts = new Map<number, number>();
  for (const { fromBar, toBar, beatsPerBar } of meterRuns(grid))
    counts.set(beatsPerBar, (counts.get(beatsPerBar) ?? 0) + toBar - fromBar + 1);
  const ranked = [...counts].sort(([a, often], [b, oftener]) => oftener - often || b - a);
  return ranked[0]?.[0] ?? grid.beatsPerBar;
}

/** Longest distance between two openings; 1 where there are fewer than two. */
function longestOf(openings: readonly number[]): number {
  return Math.max(1, ...openings.slice(1).map((opening, index) => opening - (openings[index] ?? opening)));
}
