import type { Midi, Seconds } from "@/lib/units/quantities";
import type { Certainty, HeardStretch } from "../Hearing";

/** What moved a note: a pedal or lever pulls one string against others, the bar takes all of them along. */
export type GlideKind = "pedal" | "bar" | "unsure";

/** One way of a note to another pitch without a new pick. */
export interface HeardGlide {
  kind: GlideKind;
  /** Where it ends. It begins where the glide before it ended, the first at the note's own pitch. */
  toMidi: Midi;
  /** Middle of the way. */
  atSec: Seconds;
  durationSec: Seconds;
}

/**
 * One note from its pick until it is stopped, whatever way its pitch takes. Pitches are in tune with the record: 60
 * is its middle C, wherever that lies; fractions stand for notes that are off by themselves, a vibrato for its centre.
 */
export interface HeardNote extends HeardStretch {
  midi: Midi;
  confidence: Certainty;
  /** How likely the note is the steel's rather than the band's. */
  steel: Certainty;
  /** In order; often none. */
  glides: HeardGlide[];
}

/** A note is shown as the steel's from here on: likelier than not. */
export const STEEL_FROM: Certainty = 0.5;

export function isSteel(note: Pick<HeardNote, "steel">): boolean {
  return note.steel >= STEEL_FROM;
}
