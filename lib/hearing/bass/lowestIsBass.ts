import { BASS_PITCHES, LOWEST_BASS } from "./BassEvidence";
import { BASS } from "./parameters";

/** How far a lowest sounding note is the bass's by its height alone: 1 in the register of a bass, 0 far above. */
const SHARE_OF_BASS = Float64Array.from({ length: BASS_PITCHES }, (_, p) => {
  const { surelyBassTo, neverBassFrom } = BASS;
  return Math.max(0, Math.min(1, (neverBassFrom - LOWEST_BASS - p) / (neverBassFrom - surelyBassTo)));
});

/**
 * Of the notes that sound, the lowest is the bass, unless it lies too high for one.
 * @param sounding probability of each pitch from LOWEST_BASS up
 * @param into natural log of the probability that each is the bass, then that the bass rests
 */
export function lowestIsBass(sounding: ArrayLike<number>, into: Float32Array): void {
  let noneLower = 1;
  let rest = 1;
  for (let p = 0; p < BASS_PITCHES; p++) {
    const isBass = noneLower * sounding[p]! * SHARE_OF_BASS[p]!;
    into[p] = Math.log(Math.max(BASS.floor, isBass));
    rest -= isBass;
    noneLower *= 1 - sounding[p]!;
  }
  into[BASS_PITCHES] = Math.log(Math.max(BASS.floor, rest));
}
