import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";
import type { Caret } from "./partTyping";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** Ids of the events that begin between two corners, on a string between them, both counted in; in order of time. */
export function eventsInBox(
  part: readonly ShownPart[],
  one: Caret,
  other: Caret,
  strings: readonly number[],
): string[] {
  const fromSec = Math.min(one.timeSec, other.timeSec) - SAME_MOMENT_SEC;
  const toSec = Math.max(one.timeSec, other.timeSec) + SAME_MOMENT_SEC;
  const rows = [strings.indexOf(one.string), strings.indexOf(other.string)];
  const within = new Set(strings.slice(Math.min(...rows), Math.max(...rows) + 1));
  return part
    .filter(
      ({ startSec, strings: own }) =>
        startSec >= fromSec && startSec <= toSec && own.some((string) => within.has(string)),
    )
    .map(({ id }) => id);
}

/** With an event that was not among them, without one that was. */
export function toggled(ids: readonly string[], id: string): string[] {
  return ids.includes(id) ? ids.filter((each) => each !== id) : [...ids, id];
}

/** Those of the events that stand in the part now, in order of time. */
export function standing(part: readonly ShownPart[], ids: readonly string[]): ShownPart[] {
  const wanted = new Set(ids);
  return part.filter(({ id }) => wanted.has(id));
}

/** From the first beginning to the last end; null where there are none. */
export function spanOf(events: readonly ShownPart[]): { startSec: Seconds; endSec: Seconds } | null {
  if (events.length === 0) return null;
  return {
    startSec: Math.min(...events.map(({ startSec }) => startSec)),
    endSec: Math.max(...events.map(({ endSec }) => endSec)),
  };
}
