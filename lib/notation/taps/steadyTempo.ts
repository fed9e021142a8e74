import type { Seconds } from "@/lib/units/quantities";
import { type CountedTap, median } from "./countTaps";

/** A steady pulse, and how far taps lie from it. */
export interface SteadyTempo {
  /** Length of a beat. */
  periodSec: Seconds;
  /** Time of beat 0. */
  startSec: Seconds;
  /** Spread of the taps about it, as a standard deviation: 1.4826 times their median distance. */
  spreadSec: Seconds;
  /** How alike a tap's distance is to that of the tap before, -1 to 1: near 1 where the tempo itself moves. */
  drift: number;
}

/** Beyond so many spreads a tap is a slip; it tells nothing of the tempo. */
const SLIP_SPREADS = 3;
/** No tap within this share of a beat is a slip, however even the others are. */
const SLIP_SHARE = 0.08;
/** Scale of the median distance that makes it the standard deviation of a normal distribution. */
export const MAD_TO_DEVIATION = 1.4826;

/**
 * The steady pulse nearest to counted taps. The slope is the median of the slopes between all pairs of taps (Theil 1950, Sen
 * 1968), which a third of the taps cannot lead astray; then least squares over all that are no slips.
 * @returns null of fewer than two beats
 */
export function steadyTempo(taps: readonly CountedTap[]): SteadyTempo | null {
  const slopes: number[] = [];
  for (let one = 0; one < taps.length; one += 1)
    for (let other = one + 1; other < taps.length; other += 1) {
      const beats = taps[other]!.beat - taps[one]!.beat;
      if (beats !== 0) slopes.push((taps[other]!.timeSec - taps[one]!.timeSec) / beats);
    }
  const periodSec = median(slopes);
  if (periodSec === null) return null;
  const startSec = median(taps.map(({ timeSec, beat }) => timeSec - beat * periodSec)) ?? 0;
  const rough = { periodSec, startSec };
  const spread = Math.max(SLIP_SPREADS * spreadOf(taps, rough), SLIP_SHARE * periodSec);
  const kept = taps.filter((tap) => Math.abs(offOf(tap, rough)) <= spread);
  const line = leastSquares(kept) ?? rough;
  return { ...line, spreadSec: spreadOf(taps, line), drift: driftOf(kept, line) };
}

function leastSquares(taps: readonly CountedTap[]): { periodSec: Seconds; startSec: Seconds } | null {
  const middleBeat = mean(taps.map(({ beat }) => beat));
  const middleSec = mean(taps.map(({ timeSec }) => timeSec));
  const squares = taps.reduce((sum, { beat }) => sum + (beat - middleBeat) ** 2, 0);
  if (squares === 0) return null;
  const periodSec =
    taps.reduce((sum, { beat, timeSec }) => sum + (beat - middleBeat) * (timeSec - middleSec), 0) / squares;
  return periodSec > 0 ? { periodSec, startSec: middleSec - middleBeat * periodSec } : null;
}

type Line = Pick<SteadyTempo, "periodSec" | "startSec">;

function offOf({ timeSec, beat }: CountedTap, { periodSec, startSec }: Line): Seconds {
  return timeSec - startSec - beat * periodSec;
}

function spreadOf(taps: readonly CountedTap[], line: Line): Seconds {
  return MAD_TO_DEVIATION * (median(taps.map((tap) => Math.abs(offOf(tap, line)))) ?? 0);
}

/** Correlation of each tap's distance with that of the one before; 0 where there are none. */
function driftOf(taps: readonly CountedTap[], line: Line): number {
  const offs = taps.map((tap) => offOf(tap, line));
  const squares = offs.reduce((sum, off) => sum + off * off, 0);
  if (squares === 0) return 0;
  return offs.slice(1).reduce((sum, off, index) => sum + off * (offs[index] ?? 0), 0) / squares;
}

function mean(list: readonly number[]): number {
  return list.reduce((sum, each) => sum + each, 0) / Math.max(1, list.length);
}
