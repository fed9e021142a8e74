import { degreeToSemitones } from "@/lib/theory/interval";
import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import { UnseenHomeError } from "./typedNumbers";

/**
 * What was typed for a note: a number of the key (`1` to `7`) or a letter. Null for anything else.
 * @throws UnseenHomeError for a number where home is not seen
 */
export function typedPitchClass(typed: string, key: Key | null): PitchClass | null {
  if (/^[1-7]$/.test(typed)) {
    if (!key) throw new UnseenHomeError();
    return midiToPitchClass(parsePitchName(key.tonic).pitchClass + (degreeToSemitones(typed) ?? 0));
  }
  if (!/^[A-Ga-g]$/.test(typed)) return null;
  return parsePitchName(typed.toUpperCase()).pitchClass;
}
