import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearNotesInPieces } from "@/lib/hearing/notes/hearNotesInPieces";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import type { Cents } from "@/lib/units/quantities";
import type { StepLines } from "./recording";

/** The notes of a stretch, in tune with the record, and how far that stands from A4 = 440 Hz. */
export interface NotesOf {
  notes: HeardNote[];
  tuningCents: Cents;
}

/** The ear that hears notes; @throws where this installation has none. */
export async function noteEar(): Promise<NotesEar> {
  const { notesEar } = await readLearnedEars();
  if (!notesEar) throw new Error("notes are heard by a learned ear, and this installation has none");
  return notesEar;
}

/** Hears the notes of a stretch of a record; progress is told as the step `notes`. */
export function hearNotesOf(
  { signal, side }: RecordSignal,
  ear: NotesEar,
  stretch: HeardStretch,
  lines: StepLines,
): NotesOf {
  const tuningCents = hearTuning(signal).cents;
  const notes = hearNotesInPieces({ signal, side, tuningCents, ear }, stretch, (fraction) =>
    lines.at("notes", fraction),
  );
  return { notes, tuningCents };
}
