import type { Mode } from "@/lib/theory/key";
import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";

/** Tonics with the fewest accidentals in the signature, by pitch class from C; of two alike the commoner (common practice, no source). */
const TONICS: Record<Mode, readonly string[]> = {
  major: ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"],
  minor: ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B"],
};

/** Spelled tonic of a key, as in `Eb`. */
export function tonicName(tonic: PitchClass, mode: Mode): string {
  return TONICS[mode][withinOctave(tonic)]!;
}
