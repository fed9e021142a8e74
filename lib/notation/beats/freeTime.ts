import type { Seconds } from "@/lib/units/quantities";

/** A stretch of time. */
export interface FreeStretch {
  startSec: Seconds;
  endSec: Seconds;
}

/** What is left of a stretch beside one that is taken away is kept from this length on. */
const SHORTEST_SEC: Seconds = 0.02;

/** The stretches without a steady beat, with one more; those that touch it become one with it. In order, without overlap. */
export function markFree(free: readonly FreeStretch[], stretch: FreeStretch): FreeStretch[] {
  const touching = free.filter(
    ({ startSec, endSec }) => startSec <= stretch.endSec && endSec >= stretch.startSec,
  );
  const joined = {
    startSec: Math.min(stretch.startSec, ...touching.map(({ startSec }) => startSec)),
    endSec: Math.max(stretch.endSec, ...touching.map(({ endSec }) => endSec)),
  };
  return [...free.filter((each) => !touching.includes(each)), joined].sort((a, b) => a.startSec - b.startSec);
}

/** The stretches without a steady beat, less a stretch in which there is one after all. */
export function unmarkFree(free: readonly FreeStretch[], stretch: FreeStretch): FreeStretch[] {
  return free.flatMap(({ startSec, endSec }) =>
    [
      { startSec, endSec: Math.min(endSec, stretch.startSec) },
      { startSec: Math.max(startSec, stretch.endSec), endSec },
    ].filter((left) => left.endSec - left.startSec >= SHORTEST_SEC),
  );
}

/** The free stretch in which a time lies; null where the beat is steady. */
export function freeAt<F extends FreeStretch>(free: readonly F[], timeSec: Seconds): F | null {
  return free.find(({ startSec, endSec }) => startSec <= timeSec && timeSec < endSec) ?? null;
}
