import type { BeatGrid } from "../barGrid";
import { barOpenings, LONGEST_BAR, withOpenings } from "./barPlaces";

/**
 * Twice as many beats: one more in the middle between each two. Bars begin where they did and have twice as many beats; those
 * of more than 8 are parted into two bars. {@link halveBeats} undoes it where none was parted.
 */
export function doubleBeats<G extends BeatGrid>(grid: G): G {
  const { beatsSec, beatsPerBar } = grid;
  const between = beatsSec.slice(1).map((sec, index) => (sec + (beatsSec[index] ?? sec)) / 2);
  const doubled = beatsSec.flatMap((sec, index) => {
    const middle = between[index];
    return middle === undefined ? [sec] : [sec, middle];
  });
  const isParted = (length: number) => length * 2 > LONGEST_BAR;
  let longest = isParted(beatsPerBar) ? beatsPerBar : beatsPerBar * 2;
  const openings = barOpenings(grid).flatMap((opening, index, list) => {
    const length = (list[index + 1] ?? opening + beatsPerBar) - opening;
    if (isParted(length)) return [opening * 2, opening * 2 + length];
    longest = Math.max(longest, length * 2);
    return [opening * 2];
  });
  return withOpenings({ ...grid, beatsSec: doubled }, within(openings, doubled.length), longest);
}

/**
 * Half as many beats: every second one, those kept on which the first bar begins. Where all bars have an even number of beats
 * each begins where it did and has half as many; otherwise (three to the bar) two bars make one of as many beats as before.
 */
export function halveBeats<G extends BeatGrid>(grid: G): G {
  const { beatsSec, inBar, beatsPerBar } = grid;
  const openings = barOpenings(grid);
  const first = openings.find((opening) => opening >= 0) ?? openings[0] ?? 0;
  const isKept = (beat: number) => (beat - first) % 2 === 0;
  const kept = beatsSec.filter((_, beat) => isKept(beat));
  if (kept.length === 0) return grid;
  const all = { ...grid, beatsSec: kept };
  const isEven = openings.every((opening) => isKept(opening)) && beatsPerBar % 2 === 0;
  if (isEven) {
    const places = inBar.filter((_, beat) => isKept(beat)).map((place) => (place + 1) / 2);
    return { ...all, inBar: places, beatsPerBar: beatsPerBar / 2 };
  }
  const firstKept = beatsSec.findIndex((_, beat) => isKept(beat));
  const fresh = openings.filter((opening) => isKept(opening)).map((opening) => (opening - firstKept) / 2);
  return withOpenings(all, within(fresh, kept.length), beatsPerBar);
}

/** Those that lie on the grid, and the last before it. */
function within(openings: readonly number[], count: number): number[] {
  const first = openings.findLastIndex((opening) => opening <= 0);
  return openings.slice(Math.max(0, first)).filter((opening) => opening < count);
}
