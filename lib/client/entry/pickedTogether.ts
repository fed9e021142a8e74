import type { Seconds } from "@/lib/units/quantities";
import type { Moment } from "./onePitch";

/** What was picked last, and what it has been like since. */
export interface Pick {
  /** Null in silence. */
  startSec: Seconds | null;
  looks: number;
  unclear: number;
  isTold: boolean;
  level: number;
}

export const NO_PICK: Pick = { startSec: null, looks: 0, unclear: 0, isTold: false, level: 0 };

/** A pick is looked at once it has rung this long: the notes ear then has its attack and what rings on. */
export const RINGS_SEC: Seconds = 0.5;
/** Sound that grows by so much from one look to the next was picked anew (6 dB). */
const RISE = 2;
/** Several notes are heard as none for most of that time; one note is unclear only while it is picked. */
const UNCLEAR_SHARE = 0.7;

/**
 * Waits for a pick that is not one note.
 * @param level of the newest fiftieth of a second or so
 * @returns `isDue` once for every such pick, when it has rung for {@link RINGS_SEC}
 */
export function followPick(
  now: Pick,
  { moment, level }: { moment: Moment; level: number },
  timeSec: Seconds,
): { pick: Pick; isDue: boolean } {
  if (moment.kind === "silence") return { pick: { ...NO_PICK, level }, isDue: false };
  const isNew = now.startSec === null || level > RISE * now.level;
  const before = isNew ? { ...NO_PICK, startSec: timeSec } : now;
  const pick = {
    ...before,
    level,
    looks: before.looks + 1,
    unclear: before.unclear + (moment.kind === "unclear" ? 1 : 0),
  };
  const isRung = timeSec - (pick.startSec ?? timeSec) >= RINGS_SEC;
  const isDue = !pick.isTold && isRung && pick.unclear >= UNCLEAR_SHARE * pick.looks;
  return { pick: { ...pick, isTold: pick.isTold || isRung }, isDue };
}
