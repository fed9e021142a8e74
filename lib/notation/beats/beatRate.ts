import type { BeatGrid } from "../barGrid";
import { barOpenings, LONGEST_BAR, withOpenings } from "./barPlaces";

/**
 * Twice as many beats: one more in the middle between each two. Bars begin where they did and have twice as many beats; those
 * of more than 8 are parted into two bars. {@link halveBeats} undoes it where none was parted.
 */
export function doubleBeats<G extends BeatGrid>(grid: G): G {
  const { beatsSec, inBar, beatsPerBar } = grid;
  const isParted = beatsPerBar * 2 > LONGEST_BAR;
  const between = beatsSec.slice(1).map((sec, index) => (sec + (beatsSec[index] ?? sec)) / 2);
  const doubled = beatsSec.flatMap((sec, index) => {
    const middle = between[index];
    return middle === undefined ? [sec] : [sec, middle];
  });
  const all = { ...grid, beatsSec: doubled };
  if (isParted) {
    const openings = barOpenings(grid).flatMap((opening, index, list) => {
      const length = (list[index + 1] ?? opening + beatsPerBar) - opening;
      return [opening * 2, opening * 2 + length];
    });
    return withOpenings(all, within(openings, doubled.length), beatsPerBar);
  }
  const places = inBar.flatMap((place, index) =>
    index < inBar.length - 1 ? [place * 2 - 1, place * 2] : [place * 2 - 1],
  );
  return { ...all, inBar: places, beatsPerBar: beatsPerBar * 2 };
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
