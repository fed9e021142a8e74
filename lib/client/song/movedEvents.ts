import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { type BeatGrid, beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import type { Beats, Seconds } from "@/lib/units/quantities";

/** How far something goes along the axis: by beats, so that it stays what it is in the bar, or by seconds where none are known. */
export type Shift = { beats: Beats; grid: BeatGrid } | { seconds: Seconds };

/** An event is no shorter. */
export const SHORTEST_EVENT_SEC: Seconds = 0.05;

/** How far it is from one time to another. */
export function shiftBetween(
  grid: BeatGrid | null,
  isFree: boolean,
  fromSec: Seconds,
  toSec: Seconds,
): Shift {
  if (grid === null || isFree) return { seconds: toSec - fromSec };
  return { beats: secondsToBeat(grid, toSec) - secondsToBeat(grid, fromSec), grid };
}

/** Where a time goes by a shift. */
export function shifted(timeSec: Seconds, shift: Shift): Seconds {
  if ("seconds" in shift) return timeSec + shift.seconds;
  return beatToSeconds(shift.grid, secondsToBeat(shift.grid, timeSec) + shift.beats);
}

type Edits = Map<string, Pick<PartEventFields, "startSec" | "endSec">>;

/**
 * Events moved along the axis, all by the same.
 * @param durationSec of the record
 * @returns the new times by id; null where one of them would leave the record
 */
export function movedEvents(events: readonly ShownPart[], shift: Shift, durationSec: Seconds): Edits | null {
  const edits: Edits = new Map();
  for (const event of events) {
    const startSec = shifted(event.startSec, shift);
    const endSec = Math.min(shifted(event.endSec, shift), Math.max(durationSec, event.endSec));
    if (startSec < 0 || endSec - startSec < SHORTEST_EVENT_SEC) return null;
    edits.set(event.id, { startSec, endSec });
  }
  return edits;
}

/** The ends of events moved, all by the same; none becomes shorter than it can be heard. */
export function stretchedEvents(
  events: readonly ShownPart[],
  shift: Shift,
): Map<string, Pick<PartEventFields, "endSec">> {
  return new Map(
    events.map(({ id, startSec, endSec }) => [
      id,
      { endSec: Math.max(startSec + SHORTEST_EVENT_SEC, shifted(endSec, shift)) },
    ]),
  );
}
