import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { roundNote } from "@/lib/hearing/notes/roundNote";
import { hearTuning } from "@/lib/hearing/tuning";
import type { Cents, Seconds } from "@/lib/units/quantities";
import { atEarLevel } from "../../record/atEarLevel";
import type { RecordStretch } from "../../record/RecordStretch";

/** Notes are told in milliseconds (roundNote). */
const TOLD_SEC: Seconds = 0.001;

/**
 * The notes that begin in a passage, the band's too, as they would be heard in the whole record.
 * @param stretch the frames that framesFor names
 * @param passage in whole milliseconds (toldPassage)
 * @param tuningCents of the whole record; null where it is not known, and it is then heard in the stretch alone
 * @param onFrame told each frame's number before it is heard
 */
export function hearStretch(
  ear: NotesEar,
  stretch: RecordStretch,
  passage: HeardStretch,
  tuningCents: Cents | null,
  onFrame?: (index: number, count: number) => void,
): HeardNote[] {
  const { sampleRateHz, startFrame } = stretch;
  const { signal, side } = atEarLevel(stretch);
  const beforeSec = startFrame / sampleRateHz;
  const here = { startSec: passage.startSec - beforeSec, endSec: passage.endSec - beforeSec };
  const tuning = tuningCents ?? hearTuning(signal).cents;
  return hearPassage({ signal, side, tuningCents: tuning, ear }, here, onFrame).map((note) => {
    const told = roundNote(later(note, beforeSec));
    const { startSec, endSec } = passage;
    return { ...told, startSec: Math.min(endSec - TOLD_SEC, Math.max(startSec, told.startSec)) };
  });
}

function later(note: HeardNote, bySec: Seconds): HeardNote {
  return {
    ...note,
    startSec: note.startSec + bySec,
    endSec: note.endSec + bySec,
    glides: note.glides.map((glide) => ({ ...glide, atSec: glide.atSec + bySec })),
  };
}
