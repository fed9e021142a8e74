import { parsePitchName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";

/** Note names that cannot be read; the message is in words for people. */
export class WantedPitchError extends Error {
  override readonly name = "WantedPitchError";
}

/** As many notes as a hand picks at once. */
export const MOST_NOTES = 3;

/**
 * The pitches of note names with their octaves, as in `B4 G4`.
 * @throws WantedPitchError where a name cannot be read, has no octave, or there are more than three
 */
export function wantedPitches(text: string): Midi[] {
  const names = text.split(/[\s,]+/).filter((name) => name !== "");
  if (names.length > MOST_NOTES)
    throw new WantedPitchError("One hand picks three strings at most: write one, two or three notes.");
  return names.map((name) => {
    const capital = name.charAt(0).toUpperCase() + name.slice(1);
    try {
      const { midi } = parsePitchName(capital);
      if (midi !== null) return midi;
    } catch {
      throw new WantedPitchError(`"${name}" is no note name: write for example B4, F#4 or Eb5.`);
    }
    throw new WantedPitchError(`"${name}" has no octave: write for example ${capital}4. C4 is middle C.`);
  });
}
