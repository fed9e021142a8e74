import { foldChroma } from "@/lib/hearing/chroma";
import type { Midi, PitchClass, Seconds } from "@/lib/units/quantities";
import type { PassageSpectra } from "./PassageSpectra";
import { DICTIONARY } from "./parameters";

/** How much of each pitch class there is in a passage, as chords and keys are weighed. */
export interface HarmonySpectra {
  /** Length 12 from C, unit length, or all 0 in silence. */
  treble: Float64Array;
  bass: Float64Array;
  lengthSec: Seconds;
}

const { lowestMidi, highestMidi } = DICTIONARY;

/** Bass and treble chroma of a passage (M. Mauch and S. Dixon, ISMIR 2010), from the notes that its frames add up from. */
export function harmonySpectra(passage: PassageSpectra, lengthSec: Seconds): HarmonySpectra {
  const of = (amount: (midi: Midi) => number) =>
    foldChroma(
      Float64Array.from({ length: highestMidi - lowestMidi + 1 }, (_, n) => amount(lowestMidi + n)),
      lowestMidi,
    );
  return { ...of((midi) => passage.heard(midi).mean), lengthSec };
}

/** Largest value at the pitch classes given. */
export function mostAt(chroma: Float64Array, pitchClasses: readonly PitchClass[]): number {
  return pitchClasses.reduce((most, pitchClass) => Math.max(most, chroma[pitchClass]!), 0);
}
