import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { type BeatGrid, beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** What drawing events to places of the grid comes to. */
export interface Quantised {
  /** New times by id, of those that were not there yet. */
  edits: Map<string, Pick<PartEventFields, "startSec" | "endSec">>;
  /** Left as they are: at the nearest place another event begins on one of their strings. */
  leftIds: string[];
}

/**
 * Draws the beginnings of events to the nearest places of the grid, and their ends too, at least one place on. Events that
 * begin together stay together. One that would come to begin with another on the same string is left where it is, since
 * only one of them could be shown (rule D14 of the shared song).
 * @param events in order of time
 * @param part all events, those that are left alone too
 * @param parts places in a beat
 */
export function quantised(
  events: readonly ShownPart[],
  part: readonly ShownPart[],
  grid: BeatGrid,
  parts: number,
): Quantised {
  const ids = new Set(events.map(({ id }) => id));
  // Where strings are taken already: by what is not moved, and by what was moved before.
  const taken = part.filter(({ id }) => !ids.has(id)).map(({ startSec, strings }) => ({ startSec, strings }));
  const isTaken = (startSec: number, strings: readonly number[]) =>
    taken.some(
      (other) =>
        Math.abs(other.startSec - startSec) < SAME_MOMENT_SEC &&
        other.strings.some((string) => strings.includes(string)),
    );
  const edits: Quantised["edits"] = new Map();
  const leftIds: string[] = [];
  for (const { id, startSec, endSec, strings } of events) {
    const first = Math.round(secondsToBeat(grid, startSec) * parts);
    const last = Math.max(first + 1, Math.round(secondsToBeat(grid, endSec) * parts));
    const to = { startSec: beatToSeconds(grid, first / parts), endSec: beatToSeconds(grid, last / parts) };
    const isFree = to.startSec >= 0 && !isTaken(to.startSec, strings);
    if (!isFree) leftIds.push(id);
    else if (to.startSec !== startSec || to.endSec !== endSec) edits.set(id, to);
    taken.push({ startSec: isFree ? to.startSec : startSec, strings });
  }
  return { edits, leftIds };
}
