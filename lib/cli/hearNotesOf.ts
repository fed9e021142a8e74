import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { hearNotesInPieces } from "@/lib/hearing/notes/hearNotesInPieces";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import type { Cents } from "@/lib/units/quantities";
import type { StepLines } from "./recording";

/** The notes of a stretch, in tune with the record, and how far that stands from A4 = 440 Hz. */
export interface NotesOf {
  notes: HeardNote[];
  tuningCents: Cents;
}

/** The ear that hears notes; @throws where this installation has none. */
export async function noteEar(): Promise<LearnedEar> {
  const ear = await readLearnedEar();
  if (!ear) throw new Error("notes are heard by the learned ear, and this installation has none");
  return ear;
}

/** Hears the notes of a stretch of a record; progress is told as the step `notes`. */
export function hearNotesOf(
  { signal }: RecordSignal,
  ear: LearnedEar,
  stretch: HeardStretch,
  lines: StepLines,
): NotesOf {
  const tuningCents = hearTuning(signal).cents;
  const notes = hearNotesInPieces({ signal, tuningCents, ear }, stretch, (fraction) =>
    lines.at("notes", fraction),
  );
  return { notes, tuningCents };
}
