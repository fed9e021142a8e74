import type { Certainty, GlideKind, HeardNote } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { passageWords } from "@/lib/hearing/notes/passageWords";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { rounded } from "./rounded";

export interface PrintedGlide {
  kind: GlideKind;
  toMidi: Midi;
  /** Middle of the way. */
  at: Seconds;
  durationSec: Seconds;
}

/** The notes of a passage as the command line prints them; times are seconds of the record, pitches in tune with it. */
export interface PassageNotes {
  notes: {
    start: Seconds;
    end: Seconds;
    /** Fractional where the note itself is off. */
    midi: Midi;
    confidence: Certainty;
    role: "steel" | "band";
    /** One glide, or a list where one follows another; missing where the note stays. */
    glide?: PrintedGlide | PrintedGlide[];
  }[];
  /** What a teacher would say of the passage. */
  words: string[];
}

export function toPassageNotes(notes: readonly HeardNote[]): PassageNotes {
  return {
    notes: notes.map((note) => {
      const glides = note.glides.map(
        ({ kind, toMidi, atSec, durationSec }): PrintedGlide => ({
          kind,
          toMidi: rounded(toMidi),
          at: rounded(atSec),
          durationSec: rounded(durationSec),
        }),
      );
      return {
        start: rounded(note.startSec),
        end: rounded(note.endSec),
        midi: rounded(note.midi),
        confidence: rounded(note.confidence),
        role: isSteel(note) ? "steel" : "band",
        ...(glides.length > 0 && { glide: glides.length === 1 ? glides[0]! : glides }),
      };
    }),
    words: passageWords(notes),
  };
}
