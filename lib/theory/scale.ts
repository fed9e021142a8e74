import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass, Semitones } from "@/lib/units/quantities";
import { MAJOR_SCALE_SEMITONES } from "./interval";
import type { Key, Mode } from "./key";
import { parsePitchName } from "./spelling";

/** Steps of the scales from the tonic; the minor is the natural one. */
const SCALES: Readonly<Record<Mode, readonly Semitones[]>> = {
  major: MAJOR_SCALE_SEMITONES,
  minor: [0, 2, 3, 5, 7, 8, 10],
};

/** The notes of a key's scale from its tonic up, natural minor in minor keys. */
export function scaleOf({ tonic, mode }: Key): PitchClass[] {
  const { pitchClass } = parsePitchName(tonic);
  return SCALES[mode].map((step) => withinOctave(pitchClass + step));
}
