import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { roundNote } from "@/lib/hearing/notes/roundNote";
import { LEVEL } from "@/lib/hearing/parameters";
import { hearTuning } from "@/lib/hearing/tuning";
import type { Cents, Seconds } from "@/lib/units/quantities";
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

/** As RecordIntake brings a whole record to the ear's level, and tells mono from stereo. */
function atEarLevel({ sampleRateHz, level, sideLevel, mid, side }: RecordStretch): StereoSignal {
  const signal = Signal.of(mid, sampleRateHz);
  if (level <= LEVEL.silence) return { signal, side: null };
  const isStereo = side !== null && sideLevel >= LEVEL.stereoFrom * level;
  const apart = isStereo ? Signal.of(side, sampleRateHz) : null;
  signal.scale(LEVEL.rms / level);
  apart?.scale(LEVEL.rms / level);
  return { signal, side: apart };
}

function later(note: HeardNote, bySec: Seconds): HeardNote {
  return {
    ...note,
    startSec: note.startSec + bySec,
    endSec: note.endSec + bySec,
    glides: note.glides.map((glide) => ({ ...glide, atSec: glide.atSec + bySec })),
  };
}
