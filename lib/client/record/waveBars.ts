import type { Seconds } from "@/lib/units/quantities";
import { type RecordPeaks, TILE_PAIRS } from "./RecordPeaks";

/** Bars of a waveform, one after the other. */
export interface WaveBars {
  /** Lowest and highest sample by turns, -127 to 127; 0 and 0 where nothing is known. */
  pairs: Int8Array;
  /** Whether all of them are as fine as they are asked for. */
  isWhole: boolean;
}

/**
 * The lowest and highest sample under each of a row of bars, from the zoom that fits them; from the coarsest where that is
 * still being fetched. What it costs goes by the bars, not by the record: at most as many pairs are looked at under a bar
 * as one zoom is finer than the next.
 */
export function waveBars(peaks: RecordPeaks, fromSec: Seconds, barSec: Seconds, count: number): WaveBars {
  const fine = peaks.zoomFor(barSec);
  const coarse = peaks.head.zooms.length - 1;
  const pairs = new Int8Array(2 * count);
  let isWhole = true;
  for (let bar = 0; bar < count; bar++) {
    const startSec = fromSec + bar * barSec;
    const isThere = under(peaks, fine, startSec, barSec, pairs, 2 * bar);
    if (isThere) continue;
    isWhole = false;
    under(peaks, coarse, startSec, barSec, pairs, 2 * bar);
  }
  return { pairs, isWhole };
}

/** Writes lowest and highest under one bar. @returns false where a tile is not there yet */
function under(
  peaks: RecordPeaks,
  zoom: number,
  startSec: Seconds,
  barSec: Seconds,
  into: Int8Array,
  at: number,
): boolean {
  const pairSec = peaks.pairSec(zoom);
  const pairCount = peaks.head.zooms[zoom]?.pairCount ?? 0;
  const first = Math.max(0, Math.floor(startSec / pairSec));
  const end = Math.min(pairCount, Math.max(first + 1, Math.floor((startSec + barSec) / pairSec)));
  let low = 0;
  let high = 0;
  let held = -1;
  let tile: Int8Array | null = null;
  if (startSec + barSec > 0)
    for (let pair = first; pair < end; pair++) {
      const index = Math.floor(pair / TILE_PAIRS);
      if (index !== held) tile = peaks.tile(zoom, index);
      held = index;
      if (!tile) return false;
      const inTile = 2 * (pair % TILE_PAIRS);
      low = Math.min(low, tile[inTile] ?? 0);
      high = Math.max(high, tile[inTile + 1] ?? 0);
    }
  into[at] = low;
  into[at + 1] = high;
  return true;
}

/** The loudest sample of a record, 1 to 127. */
export function loudestOf({ whole }: Pick<RecordPeaks, "whole">): number {
  let loudest = 1;
  for (const value of whole) loudest = Math.max(loudest, Math.abs(value));
  return loudest;
}
