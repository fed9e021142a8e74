import type { Beats, Seconds } from "@/lib/units/quantities";

/** A beat grid as plain data, as the shared song keeps it. */
export interface BeatGrid {
  /** At least one beat, ascending. */
  beatsSec: readonly Seconds[];
  /** Place in the bar of each beat, 1 = downbeat; as long as `beatsSec`. The metre may change from bar to bar. */
  inBar: readonly number[];
  /** No bar has more beats. Past its ends the grid goes on with the bars that it begins or ends with, see {@link beatToInBar}. */
  beatsPerBar: number;
}

/**
 * One bar. Beats are counted from the first beat of the grid, which is 0; bars from the first downbeat, which
 * opens bar 1. Bar 0 and those below it lie before it (a pickup).
 */
export interface Bar {
  number: number;
  startBeat: Beats;
  /** Start of the next bar. */
  endBeat: Beats;
  /** Place in the bar of the first beat; above 1 in a pickup. */
  firstInBar: number;
  startSec: Seconds;
  endSec: Seconds;
}

/** Length of a beat where a grid has only one: 120 beats a minute. */
const LONE_BEAT_SEC: Seconds = 0.5;
/** As many beats at either end say how the grid goes on past it. */
const BEATS_OF_AN_END = 8;

/**
 * Where a time falls on the grid: whole numbers are beats, fractions lie between two. Past the ends the grid
 * goes on at the median pace of its first or last eight beats.
 */
export function secondsToBeat(grid: BeatGrid, timeSec: Seconds): Beats {
  const { beatsSec } = grid;
  const last = beatsSec.length - 1;
  const firstSec = beatsSec[0] ?? 0;
  const lastSec = beatsSec[last] ?? firstSec;
  if (timeSec < firstSec) return (timeSec - firstSec) / paceSec(grid, "start");
  if (timeSec >= lastSec) return Math.max(last, 0) + (timeSec - lastSec) / paceSec(grid, "end");
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((beatsSec[middle] ?? 0) <= timeSec) low = middle;
    else high = middle;
  }
  const fromSec = beatsSec[low] ?? 0;
  return low + (timeSec - fromSec) / ((beatsSec[high] ?? lastSec) - fromSec);
}

/** The time of a beat, fractions and beats past the ends included; the inverse of {@link secondsToBeat}. */
export function beatToSeconds(grid: BeatGrid, beat: Beats): Seconds {
  const { beatsSec } = grid;
  const last = beatsSec.length - 1;
  const firstSec = beatsSec[0] ?? 0;
  const lastSec = beatsSec[last] ?? firstSec;
  if (beat < 0) return firstSec + beat * paceSec(grid, "start");
  if (beat >= last) return lastSec + (beat - Math.max(last, 0)) * paceSec(grid, "end");
  const low = Math.floor(beat);
  const fromSec = beatsSec[low] ?? 0;
  return fromSec + (beat - low) * ((beatsSec[low + 1] ?? lastSec) - fromSec);
}

/**
 * Place in the bar of a whole beat, 1 = downbeat. Past an end the bars go on as long as the two whole bars nearest to it,
 * where these are alike; otherwise with `beatsPerBar` beats (rule D56 of the shared song).
 */
export function beatToInBar(grid: BeatGrid, beat: Beats): number {
  const { inBar } = grid;
  const last = inBar.length - 1;
  if (beat < 0) return fold((inBar[0] ?? 1) - 1 + beat, meterOfEnd(grid, 1)) + 1;
  if (beat > last) return fold((inBar[last] ?? 1) - 1 + (beat - Math.max(last, 0)), meterOfEnd(grid, -1)) + 1;
  return inBar[beat] ?? 1;
}

/** Beats of a bar beyond the start (looking on, 1) or the end (looking back, -1) of a grid. */
function meterOfEnd({ inBar, beatsPerBar }: BeatGrid, direction: 1 | -1): number {
  const last = inBar.length - 1;
  const outmost = inBar[direction > 0 ? 0 : last] ?? 1;
  const downbeats: number[] = [];
  for (
    let beat = direction > 0 ? 0 : last;
    beat >= 0 && beat <= last && downbeats.length < 3;
    beat += direction
  )
    if (inBar[beat] === 1) downbeats.push(beat);
  const [near, middle, far] = downbeats;
  if (near === undefined || middle === undefined || far === undefined) return beatsPerBar;
  const length = Math.abs(middle - near);
  return length === Math.abs(far - middle) && outmost <= length ? length : beatsPerBar;
}

/**
 * The bars that cover a stretch, in order and without gaps; the grid is continued where the stretch passes its
 * ends. A pickup keeps the beats it has, unless the stretch begins before the grid does.
 * @param fromSec start of the stretch; by default the first beat
 * @param toSec end of the stretch; by default just past the last beat
 */
export function gridBars(grid: BeatGrid, fromSec?: Seconds, toSec?: Seconds): Bar[] {
  if (grid.beatsSec.length === 0) return [];
  const lastBeat = grid.beatsSec.length - 1;
  const fromBeat = fromSec === undefined ? 0 : Math.floor(secondsToBeat(grid, fromSec) + SNAP_BEATS);
  const untilBeat = toSec === undefined ? lastBeat + 0.5 : secondsToBeat(grid, toSec) - SNAP_BEATS;
  const isOpening = (beat: Beats) => opensBar(grid, beat);

  let start = fromBeat;
  while (!isOpening(start) && start !== 0) start -= 1;
  const bars: Bar[] = [];
  let number = numberAt(grid, start);
  do {
    let end = start + 1;
    while (!isOpening(end)) end += 1;
    bars.push({
      number,
      startBeat: start,
      endBeat: end,
      firstInBar: beatToInBar(grid, start),
      startSec: beatToSeconds(grid, start),
      endSec: beatToSeconds(grid, end),
    });
    start = end;
    number += 1;
  } while (start <= untilBeat);
  return bars;
}

/** Times nearer to a beat than this stand on it, so that rounding never opens another bar. */
const SNAP_BEATS: Beats = 1e-6;

/** Whether a bar begins with this beat: a downbeat, or a place in the bar that does not come after the one before. */
function opensBar(grid: BeatGrid, beat: Beats): boolean {
  const place = beatToInBar(grid, beat);
  return place === 1 || place <= beatToInBar(grid, beat - 1);
}

/** Number of the bar that opens with this beat. */
function numberAt(grid: BeatGrid, opening: Beats): number {
  let firstDownbeat = 0;
  while (beatToInBar(grid, firstDownbeat) !== 1) firstDownbeat += 1;
  let number = 1;
  for (let beat = firstDownbeat; beat > opening; beat -= 1) {
    // A pickup that the grid begins with counts as a bar, though no downbeat opens it.
    if (opensBar(grid, beat - 1) || beat - 1 === opening) number -= 1;
  }
  for (let beat = firstDownbeat + 1; beat <= opening; beat += 1) if (opensBar(grid, beat)) number += 1;
  return number;
}

function paceSec(grid: BeatGrid, end: "start" | "end"): Seconds {
  const beats =
    end === "start" ? grid.beatsSec.slice(0, BEATS_OF_AN_END) : grid.beatsSec.slice(-BEATS_OF_AN_END);
  const lengths = beats.slice(1).map((sec, index) => sec - (beats[index] ?? sec));
  lengths.sort((a, b) => a - b);
  return lengths[lengths.length >> 1] ?? LONE_BEAT_SEC;
}

function fold(value: number, size: number): number {
  return ((value % size) + size) % size;
}
