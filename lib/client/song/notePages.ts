import type { Seconds } from "@/lib/units/quantities";

/** Rows of one page of the list of notes: about what one reads at a sitting, and quickly drawn. */
export const PAGE_ROWS = 40;

/** Which rows of a long list stand on a page; a page past either end is the last or first. */
export function pageOf<T>(
  list: readonly T[],
  page: number,
  size = PAGE_ROWS,
): { page: number; first: number; rows: readonly T[]; count: number } {
  const count = Math.max(1, Math.ceil(list.length / size));
  const kept = Math.min(Math.max(0, page), count - 1);
  const first = kept * size;
  return { page: kept, first, rows: list.slice(first, first + size), count };
}

/** The page on which the first note stands that sounds at a time or begins after it. */
export function pageAt(list: readonly { startSec: Seconds; endSec: Seconds }[], timeSec: Seconds): number {
  const index = list.findIndex(({ endSec }) => endSec > timeSec);
  return Math.floor((index < 0 ? Math.max(0, list.length - 1) : index) / PAGE_ROWS);
}
