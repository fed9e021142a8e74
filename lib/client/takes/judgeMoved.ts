import { FitEar } from "@/lib/fit/FitEar";
import { judgeTake } from "@/lib/fit/takes/judgeTake";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { TakeStroke } from "@/lib/fit/takes/TakeStroke";
import type { Midi, Semitones } from "@/lib/units/quantities";
import type { JudgeOrder } from "./judgeMessages";

/**
 * Judges a take that may stand anywhere, since the record may have been heard transposed: whole half steps are taken off the
 * pitches, what is left is tuning. The verdict is in the part's own pitches.
 */
export function judgeMoved(
  { take, strokes, tuningCents }: JudgeOrder,
  onProgress: (fraction: number) => void = () => {},
): TakeJudged {
  const by = Math.round(tuningCents / 100);
  const ear = new FitEar(tuningCents - 100 * by);
  const judged = judgeTake(
    ear,
    take,
    by === 0 ? strokes : strokes.map((stroke) => movedStroke(stroke, by)),
    (done, of) => onProgress(done / of),
  );
  return by === 0 ? judged : movedBack(judged, by);
}

function movedStroke(stroke: TakeStroke, by: Semitones): TakeStroke {
  const notes = stroke.notes.map((note) => ({
    ...note,
    midi: note.midi + by,
    glides: note.glides.map((glide) => ({ ...glide, toMidi: glide.toMidi + by })),
  }));
  return { ...stroke, notes };
}

function movedBack(judged: TakeJudged, by: Semitones): TakeJudged {
  const back = (midis: readonly Midi[]) => midis.map((midi) => midi - by);
  return {
    ...judged,
    strokes: judged.strokes.map((stroke) => ({
      ...stroke,
      notesMidi: back(stroke.notesMidi),
      heardMidi: stroke.heardMidi && back(stroke.heardMidi),
      glides: stroke.glides.map((glide) => ({
        ...glide,
        toMidi: glide.toMidi - by,
        heardMidi: glide.heardMidi === null ? null : glide.heardMidi - by,
      })),
    })),
    besides: judged.besides.map((each) => ({ ...each, heardMidi: back(each.heardMidi) })),
  };
}
