import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Seconds } from "@/lib/units/quantities";

/** A part this short of a stretch is its edge. */
const EDGE_SEC: Seconds = 0.02;

/** Which of several stretches takes most of another, the earlier of two alike; null where none reaches into it. */
export function coveringMost<R extends HeardStretch>(list: readonly R[], stretch: HeardStretch): R | null {
  let most: R | null = null;
  let mostSec = EDGE_SEC;
  for (const each of list) {
    const sec = Math.min(each.endSec, stretch.endSec) - Math.max(each.startSec, stretch.startSec);
    if (sec > mostSec) [most, mostSec] = [each, sec];
  }
  return most;
}
