import type { Seconds } from "@/lib/units/quantities";
import { isTime, SHORTEST_SEC } from "../records/guards";
import { type RefusalReason, Refused } from "./refusals";

export interface Stretch {
  startSec: Seconds;
  endSec: Seconds;
}

/** Refuses a stretch whose times are no times, or that is too short to be shown. */
export function checkStretch(stretch: Stretch, ifShort: RefusalReason = "tooShort"): Stretch {
  const { startSec, endSec } = stretch;
  if (!isTime(startSec) || !isTime(endSec)) throw new Refused("badTime");
  if (endSec - startSec < SHORTEST_SEC) throw new Refused(ifShort);
  return { startSec, endSec };
}
