import { CHORD_TYPES } from "@/lib/hearing/chordVocabulary";
import type { Chord } from "@/lib/theory/harte";
import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import { type HarmonySpectra, mostAt } from "./HarmonySpectra";

/** What of a chord its sound tells. */
export type SoundingChord = Pick<Chord, "rootPitchClass" | "bassPitchClass" | "pitchClasses">;

const PITCH_CLASSES: readonly PitchClass[] = Array.from({ length: 12 }, (_, p) => p);
const FLOOR = 0.03;
/** Shares of treble and bass in how far a chord agrees, as the ear weighs them (CHORD_FIT). */
const TREBLE = 2 / 3;

/** All chords that the ear tells apart, on their roots. */
const OTHERS: readonly SoundingChord[] = CHORD_TYPES.flatMap(({ semitones }) =>
  PITCH_CLASSES.map((root) => ({
    rootPitchClass: root,
    bassPitchClass: root,
    pitchClasses: semitones.map((semitone) => withinOctave(root + semitone)),
  })),
);

/** What speaks for a chord in a passage; cosines with chord templates as in M. Mauch and S. Dixon, IEEE TASLP 18 (2010). */
export function chordEvidence(spectra: HarmonySpectra, chord: SoundingChord): Record<string, number> {
  const { treble, bass, lengthSec } = spectra;
  const { pitchClasses, rootPitchClass: root, bassPitchClass } = chord;
  const outside = PITCH_CLASSES.filter((pitchClass) => !pitchClasses.includes(pitchClass));
  const third = pitchClasses.filter((p) => [3, 4].includes(withinOctave(p - root)));
  const least = Math.min(...pitchClasses.map((pitchClass) => treble[pitchClass]!));
  const agrees = agreement(spectra, chord);
  const isSame = (other: SoundingChord) => other.pitchClasses.join() === sorted(pitchClasses).join();
  let [best, bestElsewhere] = [0, 0];
  for (const other of OTHERS) {
    const value = agreement(spectra, other);
    const same =
      isSame({ ...other, pitchClasses: sorted(other.pitchClasses) }) && other.rootPitchClass === root;
    if (!same) best = Math.max(best, value);
    if (other.rootPitchClass !== root) bestElsewhere = Math.max(bestElsewhere, value);
  }
  return {
    agrees,
    ahead: agrees - best,
    aheadOfOtherRoots: agrees - bestElsewhere,
    treble: cosine(treble, pitchClasses),
    leastTone: Math.log(least + FLOOR),
    mostOutside: Math.log(mostAt(treble, outside) + FLOOR),
    root: Math.log(treble[root]! + FLOOR),
    third: third.length > 0 ? Math.log(mostAt(treble, third) + FLOOR) : Math.log(FLOOR),
    otherThird: Math.log(
      mostAt(
        treble,
        outside.filter((p) => [3, 4].includes(withinOctave(p - root))),
      ) + FLOOR,
    ),
    bassRight: Math.log(bass[bassPitchClass]! + FLOOR),
    bassOther: Math.log(
      mostAt(
        bass,
        PITCH_CLASSES.filter((p) => p !== bassPitchClass),
      ) + FLOOR,
    ),
    tones: pitchClasses.length,
    length: Math.log(lengthSec + 0.1),
  };
}

function agreement(
  { treble, bass }: HarmonySpectra,
  { pitchClasses, bassPitchClass }: SoundingChord,
): number {
  return TREBLE * cosine(treble, pitchClasses) + (1 - TREBLE) * bass[bassPitchClass]!;
}

/** Of unit chroma with a template that holds the pitch classes alike. */
function cosine(chroma: Float64Array, pitchClasses: readonly PitchClass[]): number {
  let sum = 0;
  for (const pitchClass of pitchClasses) sum += chroma[pitchClass]!;
  return sum / Math.sqrt(pitchClasses.length);
}

function sorted(pitchClasses: readonly PitchClass[]): PitchClass[] {
  return [...pitchClasses].sort((a, b) => a - b);
}
