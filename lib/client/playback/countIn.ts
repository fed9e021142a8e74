import { type BeatGrid, beatToInBar, beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";

/** Clicks before a record begins. */
export interface CountIn {
  /** How long it is silent before the record begins. */
  lengthSec: Seconds;
  /** When each click comes, from the beginning of that silence on; some may fall into the record. */
  clicks: readonly { afterSec: Seconds; isFirst: boolean }[];
}

/** In beats: one that lies so little before the beginning is the beginning. */
const NEAR = 0.1;

/**
 * Counts bars in before a place of the record, so that the next click would be its first beat there, at the pace of the bar
 * that begins with it.
 * @param speed of the record's own: clicks come at the pace at which the record will be heard
 * @returns null where nothing is to be counted
 */
export function countIn(grid: BeatGrid, beginSec: Seconds, bars: number, speed: number): CountIn | null {
  const { beatsPerBar } = grid;
  const count = bars * beatsPerBar;
  if (count === 0) return null;
  const first = Math.ceil(secondsToBeat(grid, beginSec) - NEAR);
  const firstSec = beatToSeconds(grid, first);
  const periodSec = (beatToSeconds(grid, first + beatsPerBar) - firstSec) / beatsPerBar;
  const leadSec = Math.max(0, firstSec - beginSec);
  return {
    lengthSec: Math.max(0, count * periodSec - leadSec) / speed,
    clicks: Array.from({ length: count }, (_, at) => ({
      afterSec: (at * periodSec) / speed,
      isFirst: beatToInBar(grid, first - count + at) === 1,
    })),
  };
}
