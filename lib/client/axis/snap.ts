import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import { snapToBeat, stepBeat } from "./songGrid";

/** To what times are drawn on the axis: to nothing, to beats, or to parts of a beat. In the order in which a key goes round. */
export const SNAPS = ["beat", "half", "triplet", "quarter", "off"] as const;
export type Snap = (typeof SNAPS)[number];

/** As many places in each beat. */
const PARTS: Readonly<Record<Exclude<Snap, "off">, number>> = { beat: 1, half: 2, triplet: 3, quarter: 4 };
/** A step where nothing snaps. */
const FREE_STEP_SEC: Seconds = 0.05;
/** A step where no beats are known. */
const NO_BEATS_STEP_SEC: Seconds = 0.25;

/** How many places there are in a beat; null where nothing snaps, or no beats are known. */
export function snapParts(grid: BeatGrid | null, snap: Snap): number | null {
  return grid === null || snap === "off" ? null : PARTS[snap];
}

/** The place nearest to a time; the time itself where nothing snaps. */
export function snapSec(grid: BeatGrid | null, snap: Snap, timeSec: Seconds): Seconds {
  const parts = snapParts(grid, snap);
  return grid === null || parts === null ? Math.max(0, timeSec) : snapToBeat(grid, timeSec, parts);
}

/** The next place before (-1) or after (+1) a time; a short step away where nothing snaps. Never before the record begins. */
export function stepSnap(grid: BeatGrid | null, snap: Snap, timeSec: Seconds, direction: -1 | 1): Seconds {
  const parts = snapParts(grid, snap);
  if (grid !== null && parts !== null) return stepBeat(grid, timeSec, direction, parts);
  return Math.max(0, timeSec + direction * (grid === null ? NO_BEATS_STEP_SEC : FREE_STEP_SEC));
}
