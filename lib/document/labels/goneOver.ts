import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Seconds } from "@/lib/units/quantities";
import type { Label } from "./Label";

/** A longer silence between settled notes was perhaps not listened to (common practice, no source). */
const LONGEST_PAUSE_SEC: Seconds = 4;
/** So near to an open note a note may be its double (rule D26). */
const CLEAR_SEC: Seconds = 0.05;
/** Fewer notes than this in a row were perhaps chosen, not gone over (common practice, no source). */
const FEWEST_NOTES = 3;

/**
 * Where people have settled every note, whatever they made of it (rule D36). In a stretch a missing note means that
 * there is none; outside of all of them it means nothing.
 * @param notes in any order
 * @returns in order of time, without overlap
 */
export function goneOver(notes: readonly Label<"note">[]): HeardStretch[] {
  const settled = notes.filter(isSettled).map(placeOf).sort(byStart);
  const openSec = notes
    .filter(({ act }) => act === "open")
    .map((note) => placeOf(note).startSec)
    .sort((a, b) => a - b);
  const stretches: HeardStretch[] = [];
  let row: HeardStretch[] = [];
  /** The first open note after the start of the row. */
  let next = 0;
  const close = (): void => {
    const [first] = row;
    if (first !== undefined && row.length >= FEWEST_NOTES) {
      const untilSec = (openSec[next] ?? Number.POSITIVE_INFINITY) - CLEAR_SEC;
      stretches.push({ startSec: first.startSec, endSec: Math.min(lastEnd(row), untilSec) });
    }
    row = [];
  };
  for (const note of settled) {
    if (row.length > 0 && note.startSec - lastEnd(row) > LONGEST_PAUSE_SEC) close();
    if ((openSec[next] ?? Number.POSITIVE_INFINITY) <= note.startSec + CLEAR_SEC) close();
    while (next < openSec.length && openSec[next]! < note.startSec - CLEAR_SEC) next++;
    const isClear = (openSec[next] ?? Number.POSITIVE_INFINITY) > note.startSec + CLEAR_SEC;
    if (isClear) row.push(note);
  }
  close();
  return stretches;
}

function isSettled({ act }: Label<"note">): boolean {
  return act !== "open" && act !== "hidden";
}

/** What stands, or stood before it was rubbed out. */
function placeOf({ settled, proposed }: Label<"note">): HeardStretch {
  const { startSec, endSec } = (settled ?? proposed?.values)!;
  return { startSec, endSec };
}

function byStart(a: HeardStretch, b: HeardStretch): number {
  return a.startSec - b.startSec;
}

function lastEnd(row: readonly HeardStretch[]): Seconds {
  return Math.max(...row.map(({ endSec }) => endSec));
}
