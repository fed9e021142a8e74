import type { Beats, Seconds } from "@/lib/units/quantities";

/** The beats of a song with their bars, ready to be looked up. */
export interface BeatGrid {
  beatsSec: readonly Seconds[];
  inBar: readonly number[];
  /** Bar number of each beat: the first bar with a downbeat is 1, beats before it lie in bar 0. */
  barOf: readonly number[];
  beatsPerBar: number;
  /** Median beat rate, in beats a minute; 0 where there are fewer than two beats. */
  tempoBpm: number;
}

/** @param inBar position in the bar of each beat, 1 = downbeat */
export function makeBeatGrid(
  grid: { beatsSec: readonly Seconds[]; inBar: readonly number[]; beatsPerBar: number } | null,
): BeatGrid | null {
  if (!grid || grid.beatsSec.length === 0) return null;
  let bar = 0;
  const barOf = grid.inBar.map((place) => (place === 1 ? ++bar : bar));
  const gaps = grid.beatsSec.slice(1).map((sec, index) => sec - grid.beatsSec[index]!);
  gaps.sort((a, b) => a - b);
  const medianSec = gaps[Math.floor(gaps.length / 2)];
  return { ...grid, barOf, tempoBpm: medianSec ? 60 / medianSec : 0 };
}

/** Index of the last beat at or before a time; -1 before the first. */
export function beatIndexAt(grid: BeatGrid, timeSec: Seconds): number {
  let low = 0;
  let high = grid.beatsSec.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (grid.beatsSec[middle]! <= timeSec + 1e-6) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** A time in beats of the grid (fractions between two); beyond either end the first or last beat's length goes on. */
export function secToBeats(grid: BeatGrid, timeSec: Seconds): Beats {
  const last = grid.beatsSec.length - 1;
  if (last < 1) return timeSec - (grid.beatsSec[0] ?? 0);
  const index = Math.min(Math.max(beatIndexAt(grid, timeSec), 0), last - 1);
  const fromSec = grid.beatsSec[index]!;
  return index + (timeSec - fromSec) / (grid.beatsSec[index + 1]! - fromSec);
}

/** The inverse of {@link secToBeats}; never below 0 s. */
export function beatsToSec(grid: BeatGrid, beats: Beats): Seconds {
  const last = grid.beatsSec.length - 1;
  if (last < 1) return Math.max(0, (grid.beatsSec[0] ?? 0) + beats);
  const index = Math.min(Math.max(Math.floor(beats), 0), last - 1);
  const fromSec = grid.beatsSec[index]!;
  return Math.max(0, fromSec + (beats - index) * (grid.beatsSec[index + 1]! - fromSec));
}

/** The nearest place on a grid of `1/parts` of a beat. */
export function snapToBeat(grid: BeatGrid, timeSec: Seconds, parts = 1): Seconds {
  return beatsToSec(grid, Math.round(secToBeats(grid, timeSec) * parts) / parts);
}

/** The next place on a grid of `1/parts` of a beat, before (-1) or after (+1) a time. */
export function stepBeat(grid: BeatGrid, timeSec: Seconds, direction: -1 | 1, parts = 1): Seconds {
  const at = secToBeats(grid, timeSec) * parts;
  const near = Math.round(at);
  const isOn = Math.abs(at - near) < 0.02;
  const next = isOn ? near + direction : direction > 0 ? Math.ceil(at) : Math.floor(at);
  return beatsToSec(grid, next / parts);
}

/** Bar and beat in words, `bar 3 beat 1`; empty before the first beat. */
export function placeWords(grid: BeatGrid | null, timeSec: Seconds): string {
  if (!grid) return "";
  const index = beatIndexAt(grid, timeSec);
  if (index < 0) return "before bar 1";
  const bar = grid.barOf[index] ?? 0;
  return bar === 0 ? `upbeat, beat ${grid.inBar[index]}` : `bar ${bar} beat ${grid.inBar[index]}`;
}
