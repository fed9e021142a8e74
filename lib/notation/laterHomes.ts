import { type Key, keyToWords } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import { type BeatGrid, gridBars } from "./barGrid";

/** A home that comes after the first: from a moment on numbers count from it. */
export interface LaterHome {
  startSec: Seconds;
  key: Key;
}

/** What begins this much before a home belongs to it already. */
const NEAR_SEC: Seconds = 0.05;

/** The home from which what begins at a time is numbered. @param later in order of time */
export function homeInForce(first: Key, later: readonly LaterHome[], timeSec: Seconds): Key {
  return later.findLast(({ startSec }) => startSec <= timeSec + NEAR_SEC)?.key ?? first;
}

/** Each later home in words, as in `A major from bar 9`; by seconds where no beats are known. */
export function laterHomesToWords(later: readonly LaterHome[], grid: BeatGrid | null): string[] {
  return later.map(({ startSec, key }) => {
    const bar = grid && gridBars(grid, startSec + NEAR_SEC, startSec + NEAR_SEC)[0];
    return `${keyToWords(key)} from ${bar ? `bar ${bar.number}` : `${startSec.toFixed(1)} s`}`;
  });
}
