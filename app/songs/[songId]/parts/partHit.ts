import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";

/** What of an event lies under a pointer: its cell, or where it ends. */
export interface PartHit {
  event: ShownPart;
  zone: "cell" | "end";
}

/** Pixels about a cell's beginning that are taken for it. */
const CELL_PX = { before: 8, after: 26 };
/** Pixels before an end, and behind it, that are taken for it. */
const END_PX = { mouse: 10, touch: 22 };

/** The event of which something lies under a pointer on a string; a cell before an end. Null where there is none. */
export function hitPart(
  part: readonly ShownPart[],
  { string, timeSec }: { string: number; timeSec: Seconds },
  pxPerSec: number,
  isTouch: boolean,
): PartHit | null {
  const onString = part.filter(({ strings }) => strings.includes(string));
  const pxFrom = (sec: Seconds) => (timeSec - sec) * pxPerSec;
  const cell = onString.findLast(
    ({ startSec }) => pxFrom(startSec) >= -CELL_PX.before && pxFrom(startSec) <= CELL_PX.after,
  );
  if (cell) return { event: cell, zone: "cell" };
  const reach = isTouch ? END_PX.touch : END_PX.mouse;
  const end = onString.find(({ endSec }) => pxFrom(endSec) >= -reach && pxFrom(endSec) <= reach / 2);
  return end ? { event: end, zone: "end" } : null;
}
