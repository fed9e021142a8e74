import type { Seconds } from "@/lib/units/quantities";

/** What begins this little before an edge begins on it. */
const SLACK_SEC = 0.03;

/** Those of a list that begin within a stretch, in order. */
export function beginningWithin<T extends { startSec: Seconds }>(
  list: readonly T[],
  span: { startSec: Seconds; endSec: Seconds },
): T[] {
  return list.filter(
    ({ startSec }) => startSec >= span.startSec - SLACK_SEC && startSec < span.endSec - SLACK_SEC,
  );
}
