import type { Seconds } from "@/lib/units/quantities";
import { type BeatGrid, secondsToBeat } from "../barGrid";
import { barOpenings, LONGEST_BAR, withOpenings } from "./barPlaces";

/** Beats lie at least this far apart: nobody taps faster, and a beat cannot be dragged past another. */
export const CLOSEST_BEATS_SEC: Seconds = 0.1;

/** The beat nearest to a time, as an index into the grid; the first or last one past its ends. */
export function beatNear(grid: BeatGrid, timeSec: Seconds): number {
  const nearest = Math.round(secondsToBeat(grid, timeSec));
  return Math.min(grid.beatsSec.length - 1, Math.max(0, nearest));
}

/** The grid with one beat elsewhere, between its neighbours as they stand, 0.1 s from each where there is room. */
export function moveBeat<G extends BeatGrid>(grid: G, beat: number, toSec: Seconds): G {
  const { beatsSec } = grid;
  if (beatsSec[beat] === undefined) return grid;
  const before = beatsSec[beat - 1];
  const after = beatsSec[beat + 1];
  const least = before === undefined ? 0 : before + CLOSEST_BEATS_SEC;
  const most = after === undefined ? Number.POSITIVE_INFINITY : after - CLOSEST_BEATS_SEC;
  const there = least <= most ? Math.min(most, Math.max(least, toSec)) : beatsSec[beat];
  return { ...grid, beatsSec: beatsSec.map((sec, index) => (index === beat ? there : sec)) };
}

/** The grid with all beats later (or earlier, below 0) by the same; those that would lie before the record are left out. */
export function shiftBeats<G extends BeatGrid>(grid: G, bySec: Seconds): G {
  const moved = grid.beatsSec.map((sec) => sec + bySec);
  const gone = moved.filter((sec) => sec < 0).length;
  if (gone === moved.length) return grid;
  return { ...grid, beatsSec: moved.slice(gone), inBar: grid.inBar.slice(gone) };
}

/** The grid with one beat more, in the middle between one and the next; its bar has one more, all others stay as they are. */
export function addBeatAfter<G extends BeatGrid>(grid: G, beat: number): G {
  const { beatsSec } = grid;
  const fromSec = beatsSec[beat];
  const toSec = beatsSec[beat + 1];
  if (fromSec === undefined || toSec === undefined || toSec - fromSec < 2 * CLOSEST_BEATS_SEC) return grid;
  const more = [...beatsSec.slice(0, beat + 1), (fromSec + toSec) / 2, ...beatsSec.slice(beat + 1)];
  const openings = barOpenings(grid).map((opening) => (opening > beat ? opening + 1 : opening));
  return withOpenings({ ...grid, beatsSec: more }, openings, longestBar(grid, openings, more.length));
}

/** The grid without a beat; its bar has one fewer, and where it opened one the next beat does. The last beat stays. */
export function removeBeat<G extends BeatGrid>(grid: G, beat: number): G {
  const { beatsSec } = grid;
  if (beatsSec[beat] === undefined || beatsSec.length === 1) return grid;
  const fewer = beatsSec.filter((_, index) => index !== beat);
  const shifted = barOpenings(grid).map((opening) => (opening > beat ? opening - 1 : opening));
  const openings = [...new Set(shifted)].filter((opening) => opening < fewer.length);
  return withOpenings({ ...grid, beatsSec: fewer }, openings, longestBar(grid, openings, fewer.length));
}

/** As long as the longest bar of these openings, at least as long as the grid said. */
function longestBar(grid: BeatGrid, openings: readonly number[], count: number): number {
  const lengths = openings.map((opening, index) => (openings[index + 1] ?? count) - opening);
  return Math.min(LONGEST_BAR, Math.max(grid.beatsPerBar, ...lengths));
}
