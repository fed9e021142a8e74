import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BASS } from "./parameters";

/**
 * How likely a note of the bass is to begin in each frame, before it is listened to: likeliest on beats, then on
 * halves of a beat, then on its thirds, and possible anywhere.
 * @param beatsSec beat times in order
 * @returns one probability a frame
 */
export function beginnings(
  beatsSec: readonly Seconds[],
  frames: { startSec: Seconds; frameRateHz: Hertz; count: number },
): Float64Array {
  const { startSec, frameRateHz, count } = frames;
  const result = new Float64Array(count).fill(BASS.beginAnywhere / frameRateHz);
  const spread = BASS.beginSpreadSec * frameRateHz;
  const mark = (timeSec: Seconds, probability: number): void => {
    const centre = (timeSec - startSec) * frameRateHz;
    const reach = 3 * spread;
    for (let t = Math.max(0, Math.ceil(centre - reach)); t <= Math.min(count - 1, centre + reach); t++) {
      const share =
        Math.exp(-((t - centre) ** 2) / (2 * spread * spread)) / (spread * Math.sqrt(2 * Math.PI));
      result[t]! += probability * share;
    }
  };
  beatsSec.forEach((beat, i) => {
    mark(beat, BASS.beginOnBeat);
    const next = beatsSec[i + 1];
    if (next === undefined) return;
    for (const { share, probability } of BASS.beginWithin) mark(beat + share * (next - beat), probability);
  });
  return result.map((probability) => Math.min(0.5, probability));
}
