import type { NoteRecord } from "../records/records";
import { beginTogether, isSamePitch } from "../records/sameNote";
import { compareText } from "./rank";
import type { ShownNote } from "./SongSnapshot";

/**
 * Heard notes, any number at once. Pencil is left out where an ink note says the same (rule D26).
 * @returns in order of time, then pitch; the same for any order of the records
 */
export function readNotes(records: readonly NoteRecord[]): ShownNote[] {
  const inTime = [...records].sort(
    (a, b) => a.startSec - b.startSec || a.midi - b.midi || compareText(a.id, b.id),
  );
  const ink = inTime.filter((note) => note.mark === "ink");
  let first = 0;
  return inTime.filter((note) => {
    while (first < ink.length && isBefore(ink[first]!, note)) first++;
    return note.mark === "ink" || !isToldFrom(ink, first, note);
  });
}

/** Whether one of the ink notes from `first` on is this note. */
function isToldFrom(ink: readonly NoteRecord[], first: number, note: NoteRecord): boolean {
  for (let index = first; index < ink.length; index++) {
    const { startSec, midi } = ink[index]!;
    if (!beginTogether(startSec, note.startSec)) return false;
    if (isSamePitch(midi, note.midi)) return true;
  }
  return false;
}

/** Whether it begins so much earlier that the two cannot be one. */
function isBefore(one: NoteRecord, other: NoteRecord): boolean {
  return one.startSec < other.startSec && !beginTogether(one.startSec, other.startSec);
}
