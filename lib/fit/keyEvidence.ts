import { profileCorrelation } from "@/lib/hearing/keyEvidence";
import type { Mode } from "@/lib/theory/key";
import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import type { HarmonySpectra } from "./HarmonySpectra";

/** A key by its sound. */
export interface SoundingKey {
  tonic: PitchClass;
  mode: Mode;
}

/** Weight of the bass beside the treble in a key's profile. */
const BASS_SHARE = 0.5;
const ALL: readonly SoundingKey[] = (["major", "minor"] as const).flatMap((mode) =>
  Array.from({ length: 12 }, (_, tonic) => ({ tonic, mode })),
);

/** What speaks for a key in a passage: the correlation of its pitch classes with the key's profile (C. L. Krumhansl 1990). */
export function keyEvidence(
  { treble, bass, lengthSec }: HarmonySpectra,
  key: SoundingKey,
): Record<string, number> {
  const both = treble.map((value, p) => value + BASS_SHARE * bass[p]!);
  const own = profileCorrelation(both, key);
  const others = ALL.filter(({ tonic, mode }) => tonic !== key.tonic || mode !== key.mode);
  const at = (semitones: number, chroma = treble) => chroma[withinOctave(key.tonic + semitones)]!;
  const [third, otherThird] = key.mode === "major" ? [4, 3] : [3, 4];
  const relative: SoundingKey =
    key.mode === "major"
      ? { tonic: withinOctave(key.tonic + 9), mode: "minor" }
      : { tonic: withinOctave(key.tonic + 3), mode: "major" };
  const ahead = own - Math.max(...others.map((other) => profileCorrelation(both, other)));
  const length = Math.log(lengthSec + 0.5);
  return {
    profile: own,
    ahead,
    aheadByLength: ahead * length,
    aheadOfRelative: own - profileCorrelation(both, relative),
    tonic: at(0),
    tonicBass: at(0, bass),
    dominantBass: at(7, bass),
    third: at(third) - at(otherThird),
    fourths: at(5) - at(6),
    seventh: at(11) - at(10),
    minor: Number(key.mode === "minor"),
    length,
  };
}
