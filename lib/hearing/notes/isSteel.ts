import type { Certainty, HeardNote } from "../Hearing";

/** A note is shown as the steel's from here on: likelier than not. */
export const STEEL_FROM: Certainty = 0.5;

export function isSteel(note: Pick<HeardNote, "steel">): boolean {
  return note.steel >= STEEL_FROM;
}
