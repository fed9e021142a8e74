import { parsePitchName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";

/** An open pitch that was typed and cannot be read; the message is in words for people. */
export class PitchTextError extends Error {
  override readonly name = "PitchTextError";
}

/**
 * The pitch of an open string as it is typed: a note with its octave (`F#4`; C4 is middle C), or a MIDI number.
 * @throws PitchTextError
 */
export function textToPitch(text: string): Midi {
  const typed = text.trim();
  if (/^\d{1,3}$/.test(typed)) return Number(typed);
  const name = typed.slice(0, 1).toUpperCase() + typed.slice(1);
  let midi: Midi | null;
  try {
    midi = parsePitchName(name).midi;
  } catch {
    throw new PitchTextError(
      typed === "" ? "Write its open note, as in F#4." : `"${typed}" is no note: write one as in F#4 or Bb3.`,
    );
  }
  if (midi === null) throw new PitchTextError(`Which octave? Write ${name}3 or ${name}4; C4 is middle C.`);
  return midi;
}
