import type { Seconds, Semitones } from "@/lib/units/quantities";
import type { NoteRecord } from "../records/records";
import { compareText } from "./rank";
import type { ShownNote } from "./SongSnapshot";

/** Notes that begin so near each other, in time and in pitch, are one: as transcriptions are commonly scored. */
const SAME_SEC: Seconds = 0.05;
const SAME_SEMITONES: Semitones = 0.5;
/** Distances that differ by rounding only are one distance. */
const ROUNDING = 1e-9;

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
    while (first < ink.length && note.startSec - ink[first]!.startSec > SAME_SEC + ROUNDING) first++;
    return note.mark === "ink" || !isToldFrom(ink, first, note);
  });
}

/** Whether one of the ink notes from `first` on is this note. */
function isToldFrom(ink: readonly NoteRecord[], first: number, note: NoteRecord): boolean {
  for (let index = first; index < ink.length; index++) {
    const { startSec, midi } = ink[index]!;
    if (startSec - note.startSec > SAME_SEC + ROUNDING) return false;
    if (Math.abs(midi - note.midi) <= SAME_SEMITONES + ROUNDING) return true;
  }
  return false;
}
