import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";
import { beginningWithin } from "./beginningWithin";

/** Events of the part this far away still say where the hands are. */
const NEAR_SEC: Seconds = 8;

/** What a passage finds in the part where it is to be written. */
export interface PartAround {
  /** Ids of one's own pencil in the stretch, which it replaces. */
  instead: string[];
  /** What stays: all else in the stretch, and the nearest event to either side. */
  kept: ShownPart[];
}

/** @param me id of the person who writes */
export function partAround(
  part: readonly ShownPart[],
  { startSec, endSec }: { startSec: Seconds; endSec: Seconds },
  me: string,
): PartAround {
  const within = beginningWithin(part, { startSec, endSec });
  const isOwn = ({ mark, madeBy }: ShownPart) => mark === "pencil" && madeBy === me;
  const before = part.findLast((event) => !within.includes(event) && event.startSec < startSec);
  const after = part.find((event) => !within.includes(event) && event.startSec >= startSec);
  return {
    instead: within.filter(isOwn).map(({ id }) => id),
    kept: [
      ...(before && startSec - before.startSec < NEAR_SEC ? [before] : []),
      ...within.filter((event) => !isOwn(event)),
      ...(after && after.startSec - endSec < NEAR_SEC ? [after] : []),
    ],
  };
}
