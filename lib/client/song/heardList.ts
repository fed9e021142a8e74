import type { ShownNote, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { beginTogether, isSamePitch } from "@/lib/document/records/sameNote";
import type { HeardNote } from "@/lib/hearing/Hearing";

/** A note of the band as the latest hearing told it; it stands in no record, so its id names it on this page only. */
export interface BandNote extends HeardNote {
  id: string;
}

/** A note of the lane of heard notes: a record of the shared song, or one of the band's. */
export type ListedNote = ShownNote | BandNote;

export function isOfRecord(note: ListedNote): note is ShownNote {
  return "mark" in note;
}

/** Whose a note is: the steel's, unless nobody wrote it into the song or a person gave it to the band. */
export function isOfSteel(note: ListedNote): boolean {
  return isOfRecord(note) && note.role?.whose !== "band";
}

/**
 * The band's notes that stand beside those of the song: one that the song has too, given to the steel by a person or
 * heard otherwise since, is that record.
 * @param heard in order of time
 */
export function bandBeside(
  heard: readonly HeardNote[],
  song: Pick<SongSnapshot, "notes" | "bandNotes">,
): BandNote[] {
  const records = inTime(song.notes, song.bandNotes);
  let first = 0;
  return heard.flatMap((note) => {
    while (records[first] && isOver(records[first]!, note)) first += 1;
    for (let at = first; records[at] && !isOver(note, records[at]!); at += 1) {
      const { startSec, midi } = records[at]!;
      if (beginTogether(startSec, note.startSec) && isSamePitch(midi, note.midi)) return [];
    }
    return [{ ...note, id: `${note.startSec} ${note.midi}` }];
  });
}

/** Two lists as one, in order of time, then pitch. */
export function inTime<A extends HeardSpot, B extends HeardSpot>(
  one: readonly A[],
  other: readonly B[],
): (A | B)[] {
  return [...one, ...other].sort((a, b) => a.startSec - b.startSec || a.midi - b.midi);
}

type HeardSpot = Pick<HeardNote, "startSec" | "midi">;

/** Whether it begins so long before another that the two cannot be one. */
function isOver(one: HeardSpot, other: HeardSpot): boolean {
  return one.startSec < other.startSec && !beginTogether(one.startSec, other.startSec);
}
