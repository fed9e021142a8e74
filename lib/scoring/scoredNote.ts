import type { HeardNote } from "@/lib/hearing/Hearing";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import type { Semitones } from "@/lib/units/quantities";
import type { Glide } from "./glideScore";
import type { TimedNote } from "./noteMatching";

/** A note as it is scored. */
export interface ScoredNote extends TimedNote {
  /** `steel` for the steel's; missing where whoever gave it does not tell whose notes are. */
  role?: string;
  glides?: Glide[];
}

/**
 * A note of the ear as it is scored. Where a glide arrives the references have a note without a pick, so a note is given
 * there too.
 * @param shift added to all pitches
 */
export function asScored(note: HeardNote, shift: Semitones): ScoredNote[] {
  const { startSec, endSec } = note;
  const role = isSteel(note) ? "steel" : "band";
  const glides = note.glides.map(({ kind, toMidi, atSec }) => ({
    atSec,
    toMidi: toMidi + shift,
    kind: kind === "unsure" ? null : kind,
  }));
  const arrivals = glides.map(({ atSec, toMidi }) => ({ startSec: atSec, endSec, midi: toMidi, role }));
  return [{ startSec, endSec, midi: note.midi + shift, role, glides }, ...arrivals];
}
