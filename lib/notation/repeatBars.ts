import type { Seconds } from "@/lib/units/quantities";
import { type BeatGrid, beatToSeconds, gridBars, secondsToBeat } from "./barGrid";

/** A stretch of time. */
interface Stretch {
  startSec: Seconds;
  endSec: Seconds;
}

/** Bars that begin this near to a stretch's ends are told by rounding to lie within it. */
const NEAR_SEC: Seconds = 0.05;

/**
 * Where things of one stretch fall in another that repeats it: bar by bar, at the same beat of the bar, whatever the tempo of
 * either. Of a bar that is shorter there, what lies beyond its end is cut off.
 * @returns for a stretch of the one the stretch of the other; null where the other has no such bar
 */
export function repeatBars(grid: BeatGrid, from: Stretch, to: Stretch): (each: Stretch) => Stretch | null {
  const within = ({ startSec, endSec }: Stretch) =>
    gridBars(grid, startSec + NEAR_SEC, Math.max(startSec + NEAR_SEC, endSec - NEAR_SEC));
  const [theirs, ours] = [within(from), within(to)];
  const place = (timeSec: Seconds, isEnd: boolean): Seconds | null => {
    const beat = secondsToBeat(grid, timeSec);
    // What ends with a bar ends with it there too, not where the next begins.
    const nudge = isEnd ? -1e-6 : 1e-6;
    const index = theirs.findIndex((bar) => bar.startBeat <= beat + nudge && beat + nudge < bar.endBeat);
    const [bar, there] = [theirs[index], ours[index]];
    if (!bar || !there) return null;
    // A pickup's first beat is not the first of its bar.
    const shift = bar.firstInBar - there.firstInBar;
    const placed = there.startBeat + beat - bar.startBeat + shift;
    return beatToSeconds(grid, Math.min(there.endBeat, Math.max(there.startBeat, placed)));
  };
  const lastSec = ours[theirs.length - 1]?.endSec ?? ours.at(-1)?.endSec ?? to.endSec;
  return ({ startSec, endSec }) => {
    const first = place(Math.max(startSec, theirs[0]?.startSec ?? startSec), false);
    if (first === null) return null;
    const last = place(endSec, true) ?? lastSec;
    return last > first ? { startSec: first, endSec: last } : null;
  };
}
