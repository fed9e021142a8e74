import type { Seconds } from "@/lib/units/quantities";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** Those of a list that begin within a stretch, in order; what begins on an edge, or hardly before it, begins there. */
export function beginningWithin<T extends { startSec: Seconds }>(
  list: readonly T[],
  span: { startSec: Seconds; endSec: Seconds },
): T[] {
  return list.filter(
    ({ startSec }) => startSec >= span.startSec - SAME_MOMENT_SEC && startSec < span.endSec - SAME_MOMENT_SEC,
  );
}
