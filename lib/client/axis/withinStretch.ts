import type { Seconds } from "@/lib/units/quantities";

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
  const first = firstFrom(latest, (sec) => sec >= fromSec);
  const found: L[] = [];
  for (let at = first; at < list.length && list[at]!.startSec <= toSec; at++)
    if (list[at]!.endSec >= fromSec) found.push(list[at]!);
  return found;
}

/** How many of a list in order of its starts begin before a time. */
export function countBefore(list: readonly Pick<Lasting, "startSec">[], timeSec: Seconds): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (list[middle]!.startSec < timeSec) low = middle + 1;
    else high = middle;
  }
  return low;
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

/** The first place from which on all hold, of values that grow. */
function firstFrom(values: Float64Array, holds: (value: number) => boolean): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(values[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}
