import type { BeatGrid } from "../barGrid";
import { barOpenings, withOpenings } from "./barPlaces";

/** Whether a downbeat moves with all others, or takes with it only those that come after it. */
export type DownbeatReach = "song" | "onward";

/**
 * The grid with a beat as the first of its bar. Of the song, the nearest downbeat moves there (the earlier one where two are
 * as near) and all others with it, by as many beats, so that every bar keeps its length. Onward, what lies before stays:
 * the bar before it is cut short or goes on, in bars of the usual length and what is left.
 * @param beat index into the grid
 */
export function setDownbeat<G extends BeatGrid>(grid: G, beat: number, reach: DownbeatReach): G {
  const openings = barOpenings(grid);
  const last = grid.beatsSec.length - 1;
  if (beat < 0 || beat > last) return grid;
  const past = last + (grid.beatsPerBar - ((grid.inBar[last] ?? 1) - 1));
  const nearest = [...openings, past].reduce((best, each) =>
    Math.abs(each - beat) < Math.abs(best - beat) ? each : best,
  );
  const by = beat - nearest;
  const longest = grid.beatsPerBar;
  const moved = [...openings, past].map((opening) => opening + by).filter((opening) => opening <= last);
  if (reach === "song") {
    const firstLength = (openings[1] ?? past) - (openings[0] ?? 0);
    return withOpenings(grid, moved, longest, firstLength);
  }
  const before = openings.filter((opening) => opening < beat);
  return withOpenings(grid, [...before, ...moved.filter((opening) => opening >= beat)], longest);
}
