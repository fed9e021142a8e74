import { textToMove } from "@/lib/client/copedents/moveText";
import { textToPitch } from "@/lib/client/copedents/pitchText";
import { printed } from "@/lib/client/format/format";
import type { Copedent } from "@/lib/instrument/Copedent";
import { openHome } from "@/lib/instrument/openHome";
import { C_MAJOR } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";

/** The note that a move makes of an open string, as printed and without its octave; empty where there is none to tell. */
export function movedNote(copedent: Copedent, pitch: string, move: string): string {
  if (move.trim() === "") return "";
  try {
    const midi = textToPitch(pitch) + textToMove(move);
    return printed(midiToName(midi, openHome(copedent) ?? C_MAJOR).replace(/-?\d+$/, ""));
  } catch {
    return "";
  }
}
