import type { Seconds } from "@/lib/units/quantities";
import type { PartEvent } from "./PartEvent";

/** What is blocked sounds for half of its time, as a staccato does (common practice, no source). */
const BLOCKED_SHARE = 0.5;
/** No hand stops a string sooner. */
const SOONEST_BLOCK_SEC: Seconds = 0.06;
/** What ended this little ago still rings for what goes on from it. */
const STILL_RINGING_SEC: Seconds = 0.03;

/** When an event stops sounding: at its end, or before where it is blocked. */
export function soundedEnd({
  startSec,
  endSec,
  techniques,
}: Pick<PartEvent, "startSec" | "endSec" | "techniques">): Seconds {
  if (!techniques?.includes("block")) return endSec;
  return Math.min(endSec, startSec + Math.max(SOONEST_BLOCK_SEC, (endSec - startSec) * BLOCKED_SHARE));
}

/** Whether what is to stop at a time still rings for an event that goes on from it without a pick. */
export function stillRings(soundedEndSec: Seconds, startSec: Seconds): boolean {
  return startSec <= soundedEndSec + STILL_RINGING_SEC;
}

/** Whether an event still rings when another begins. */
export function ringsInto(before: PartEvent, startSec: Seconds): boolean {
  return stillRings(soundedEnd(before), startSec);
}
