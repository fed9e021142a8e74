import type { Seconds } from "@/lib/units/quantities";

/** More rows than these would take the lanes' room; what still overlaps then lies over one another. */
const MOST_ROWS = 3;

/**
 * In which row the tab of each passage stands, so that tabs in one row do not overlap as far as there are rows.
 * @param studies in order of time
 * @param leastSec what a tab takes at least, in seconds of the strip
 * @returns a row for each, from 0
 */
export function studyRows(
  studies: readonly { startSec: Seconds; endSec: Seconds }[],
  leastSec: Seconds,
): number[] {
  const endsSec: Seconds[] = [];
  return studies.map(({ startSec, endSec }) => {
    const free = endsSec.findIndex((end) => end <= startSec + 1e-6);
    const row = free >= 0 ? free : endsSec.length < MOST_ROWS ? endsSec.length : earliest(endsSec);
    endsSec[row] = Math.max(endsSec[row] ?? 0, endSec, startSec + leastSec);
    return row;
  });
}

function earliest(endsSec: readonly Seconds[]): number {
  return endsSec.indexOf(Math.min(...endsSec));
}
