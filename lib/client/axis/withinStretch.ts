import type { Seconds } from "@/lib/units/quantities";
import { firstThat } from "./firstThat";

interface Lasting {
  startSec: Seconds;
  endSec: Seconds;
}

/** For each list, the latest end of what stands up to each place in it. */
const ends = new WeakMap<readonly Lasting[], Float64Array>();

/**
 * What sounds or stands in a stretch, ends included, of a list in order of its starts. Costs what it gives, not the list:
 * lanes ask this whenever they draw. The list must not be changed afterwards.
 */
export function withinStretch<L extends Lasting>(list: readonly L[], fromSec: Seconds, toSec: Seconds): L[] {
  const latest = ends.get(list) ?? latestEnds(list);
  const first = firstThat(latest.length, (at) => latest[at]! >= fromSec);
  const found: L[] = [];
  for (let at = first; at < list.length && list[at]!.startSec <= toSec; at++)
    if (list[at]!.endSec >= fromSec) found.push(list[at]!);
  return found;
}

/** How many of a list in order of its starts begin before a time. */
export function countBefore(list: readonly Pick<Lasting, "startSec">[], timeSec: Seconds): number {
  return firstThat(list.length, (at) => list[at]!.startSec >= timeSec);
}

function latestEnds(list: readonly Lasting[]): Float64Array {
  const latest = new Float64Array(list.length);
  let soFar = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < list.length; at++) {
    soFar = Math.max(soFar, list[at]!.endSec);
    latest[at] = soFar;
  }
  ends.set(list, latest);
  return latest;
}
