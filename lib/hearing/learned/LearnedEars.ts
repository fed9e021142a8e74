import type { LearnedEar } from "./LearnedEar";
import type { NotesEar } from "./NotesEar";

/** The trained ears of an installation. */
export interface LearnedEars {
  /** Hears beats, chords and bass. */
  ear: LearnedEar | null;
  /** Hears notes: with weights of its own, or with the ear's where there are none. */
  notesEar: NotesEar | null;
}
