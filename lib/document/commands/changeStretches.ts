import type { Seconds } from "@/lib/units/quantities";
import { readChanges } from "../read/readChanges";
import type { ShownChange } from "../read/SongSnapshot";
import type { Settled } from "../read/settle";
import { isTime, SHORTEST_SEC } from "../records/guards";
import type { Pen, Sheet } from "./pen";
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

/** The changes as everyone now sees them, in order of time. */
export function shownChanges(sheet: Sheet<"change">): ShownChange[] {
  return readChanges([...sheet.values()].flatMap((each) => (each.standing === "shown" ? [each.record] : [])));
}

/** The stretches where a change is seen; refused where it is seen nowhere. */
export function stretchesOf(sheet: Sheet<"change">, { id }: Settled<"change">): ShownChange[] {
  const stretches = shownChanges(sheet).filter((each) => each.id === id);
  if (stretches.length === 0) throw new Refused("notShown");
  return stretches;
}

/** From where to where a change is seen, over what covers it in between. */
export function seenStretch(sheet: Sheet<"change">, change: Settled<"change">): Stretch {
  const stretches = stretchesOf(sheet, change);
  return { startSec: stretches[0]!.startSec, endSec: stretches.at(-1)!.endSec };
}

/** Settles a change with one or both ends moved; ends that crossed (rule D4) are put in order with it. */
export function inkEdges(pen: Pen<"change">, change: Settled<"change">, edits: Partial<Stretch>): string[] {
  const seen = seenStretch(pen.sheet, change);
  const { startSec, endSec } = change.isInk ? change.record : seen;
  return pen.ink(change, { startSec, endSec, ...edits }, seen);
}
