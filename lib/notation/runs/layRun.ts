import type { Beats, Seconds } from "@/lib/units/quantities";
import { type Bar, type BeatGrid, beatToSeconds, gridBars } from "../barGrid";
import { type RunBar, RunError, type RunShare } from "./parseRun";

/** A change of a run where it falls. */
export interface LaidShare {
  text: string;
  startSec: Seconds;
  endSec: Seconds;
}

/** A run on its bars. */
export interface LaidRun {
  /** In order of time; gaps where blanks were typed. */
  shares: LaidShare[];
  /** Numbers of the first and last bar that it takes. */
  fromBar: number;
  toBar: number;
  /** Bars for which the record is too short. */
  leftOver: number;
}

/** How much earlier a pushed change comes. */
const PUSH: Beats = 0.5;
/** A time this near before a bar belongs to it. */
const NEAR_SEC: Seconds = 0.05;

/**
 * Lets a run fall on bars, from the one in which a time lies. Within a bar counted beats are taken first; the others share what
 * is left evenly.
 * @throws RunError where a bar has not as many beats as were counted
 */
export function layRun(
  bars: readonly RunBar[],
  grid: BeatGrid,
  fromSec: Seconds,
  durationSec: Seconds,
): LaidRun {
  const onGrid = gridBars(grid, Math.max(0, fromSec + NEAR_SEC), Math.max(fromSec + NEAR_SEC, durationSec));
  const room = onGrid.filter((bar) => bar.endSec > 0 && bar.startSec < durationSec - NEAR_SEC);
  const taken = bars.slice(0, room.length);
  const shares: LaidShare[] = [];
  let held: LaidShare | null = null;
  for (const [index, typed] of taken.entries()) {
    const bar = room[index]!;
    for (const { share, fromBeat, toBeat } of sharesOf(typed, bar)) {
      const startSec = Math.max(0, beatToSeconds(grid, fromBeat - (share.isPushed ? PUSH : 0)));
      const endSec = Math.min(durationSec, beatToSeconds(grid, toBeat));
      if (share.chord === "blank") held = null;
      else if (share.chord === "held") {
        if (held) held.endSec = endSec;
      } else {
        if (held) held.endSec = Math.min(held.endSec, startSec);
        held = { text: share.chord.text, startSec, endSec };
        shares.push(held);
      }
    }
  }
  return {
    shares: shares.filter((share) => share.endSec > share.startSec),
    fromBar: room[0]?.number ?? 0,
    toBar: room[Math.max(0, taken.length - 1)]?.number ?? 0,
    leftOver: bars.length - taken.length,
  };
}

function sharesOf(typed: RunBar, bar: Bar): { share: RunShare; fromBeat: Beats; toBeat: Beats }[] {
  const length = bar.endBeat - bar.startBeat;
  const counted = typed.reduce((sum, { beats }) => sum + (beats ?? 0), 0);
  const uncounted = typed.filter(({ beats }) => beats === null).length;
  if (
    counted > length ||
    (counted < length && uncounted === 0 && counted > 0) ||
    (counted === length && uncounted > 0)
  )
    throw new RunError(
      `Bar ${bar.number} has ${length} ${length === 1 ? "beat" : "beats"}, but ${counted} ${counted === 1 ? "is" : "are"} counted by dots${uncounted > 0 ? " beside others" : ""}.`,
    );
  const even = uncounted > 0 ? (length - counted) / uncounted : 0;
  let beat = bar.startBeat;
  return typed.map((share) => {
    const fromBeat = beat;
    beat += share.beats ?? even;
    return { share, fromBeat, toBeat: beat };
  });
}
