import type { Seconds } from "@/lib/units/quantities";
import type { BeatGrid } from "../barGrid";
import { LONGEST_BAR, withOpenings } from "../beats/barPlaces";
import type { FittedTaps } from "./fitTaps";

/** Where tapped beats are laid: over the whole record, or only where they were tapped. */
export type TapReach = "record" | "tapped";

/** A beat of the old grid goes where a tapped one lies nearer than this share of a beat. */
const SEAM_SHARE = 0.5;

/**
 * The grid with tapped beats. Over the record they go on at their pace both ways; only where they were tapped, the grid stays
 * as it is before and after. Bars are counted from the beats tapped as downbeats, of as many beats as lie most often between
 * two of them; where none was, the first tap opens a bar of the grid's metre.
 * @param grid null where there is none yet; then beats are laid over the record
 * @param beatsPerBar where neither taps nor grid say it
 */
export function layTaps(
  grid: BeatGrid | null,
  taps: FittedTaps,
  reach: TapReach,
  { durationSec, beatsPerBar }: { durationSec: Seconds; beatsPerBar: number },
): BeatGrid {
  const { beatsSec, downbeats } = taps;
  const meter = meterOf(downbeats) ?? grid?.beatsPerBar ?? beatsPerBar;
  const first = downbeats[0] ?? 0;
  if (reach === "record" || !grid || grid.beatsSec.length === 0) {
    const [beforeSec, afterSec] = endPaces(taps);
    const before: Seconds[] = [];
    for (let sec = (beatsSec[0] ?? 0) - beforeSec; sec >= 0; sec -= beforeSec) before.unshift(sec);
    const after: Seconds[] = [];
    for (let sec = (beatsSec.at(-1) ?? 0) + afterSec; sec <= durationSec; sec += afterSec) after.push(sec);
    const all = [...before, ...beatsSec, ...after];
    const shifted = (downbeats.length > 0 ? downbeats : [first]).map((beat) => beat + before.length);
    return opened({ beatsSec: all, inBar: [], beatsPerBar: meter }, shifted, meter);
  }
  const seamSec = taps.periodSec * SEAM_SHARE;
  const fromSec = (beatsSec[0] ?? 0) - seamSec;
  const toSec = (beatsSec.at(-1) ?? 0) + seamSec;
  const keptBefore = grid.beatsSec.filter((sec) => sec <= fromSec).length;
  const keptAfter = grid.beatsSec.findIndex((sec) => sec >= toSec);
  const after = keptAfter < 0 ? grid.beatsSec.length : keptAfter;
  const own = opened(
    { beatsSec, inBar: [], beatsPerBar: meter },
    downbeats.length > 0 ? downbeats : [first],
    meter,
  );
  return {
    beatsSec: [...grid.beatsSec.slice(0, keptBefore), ...beatsSec, ...grid.beatsSec.slice(after)],
    inBar: [...grid.inBar.slice(0, keptBefore), ...own.inBar, ...grid.inBar.slice(after)],
    beatsPerBar: Math.max(grid.beatsPerBar, own.beatsPerBar),
  };
}

/** Bars from the first downbeat tapped to the end, begun anew on every other that was tapped. */
function opened(grid: BeatGrid, downbeats: readonly number[], meter: number): BeatGrid {
  const openings: number[] = [];
  for (const [index, downbeat] of downbeats.entries()) {
    const until = downbeats[index + 1] ?? grid.beatsSec.length;
    for (let beat = downbeat; beat < until; beat += meter) openings.push(beat);
  }
  return withOpenings(grid, openings, meter);
}

/** How many beats lie most often from one downbeat to the next; null where fewer than two were tapped. */
function meterOf(downbeats: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const [index, beat] of downbeats.slice(1).entries()) {
    const length = beat - (downbeats[index] ?? beat);
    counts.set(length, (counts.get(length) ?? 0) + 1);
  }
  const ranked = [...counts].sort(([a, often], [b, oftener]) => oftener - often || a - b);
  const most = ranked[0]?.[0];
  return most === undefined || most > LONGEST_BAR ? null : most;
}

/** How long a beat is before the first and after the last: the same where they are steady, else of the last few. */
function endPaces({ beatsSec, isSteady, periodSec }: FittedTaps): [Seconds, Seconds] {
  if (isSteady || beatsSec.length < 2) return [periodSec, periodSec];
  const over = Math.min(4, beatsSec.length - 1);
  const startSec = ((beatsSec[over] ?? 0) - (beatsSec[0] ?? 0)) / over;
  const endSec = ((beatsSec.at(-1) ?? 0) - (beatsSec.at(-1 - over) ?? 0)) / over;
  return [startSec, endSec];
}
