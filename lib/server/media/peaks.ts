import { PEAK_ZOOMS, type Peaks, type PeakZoom } from "@/lib/contracts/peaks";
import type { Hertz } from "@/lib/units/quantities";

/** Full scale, so that lowest and highest are alike. */
const FULL_SCALE = 127;

/** Rounded outwards, so that a pair never hides a sample. */
function toStep(sample: number, round: (value: number) => number): number {
  return Math.max(-FULL_SCALE, Math.min(FULL_SCALE, round(sample * FULL_SCALE)));
}

function finestZoom(channels: readonly Float32Array[], frames: number, framesPerPair: number): PeakZoom {
  const pairs = new Int8Array(2 * Math.ceil(frames / framesPerPair));
  for (let pair = 0; 2 * pair < pairs.length; pair++) {
    const from = pair * framesPerPair;
    const to = Math.min(frames, from + framesPerPair);
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const channel of channels) {
      for (let i = from; i < to; i++) {
        const sample = channel[i]!;
        if (sample < low) low = sample;
        if (sample > high) high = sample;
      }
    }
    pairs[2 * pair] = toStep(low, Math.floor);
    pairs[2 * pair + 1] = toStep(high, Math.ceil);
  }
  return { framesPerPair, pairs };
}

function coarser(finer: PeakZoom, framesPerPair: number): PeakZoom {
  const joined = framesPerPair / finer.framesPerPair;
  const finerPairs = finer.pairs.length / 2;
  const pairs = new Int8Array(2 * Math.ceil(finerPairs / joined));
  for (let pair = 0; 2 * pair < pairs.length; pair++) {
    let low = FULL_SCALE;
    let high = -FULL_SCALE;
    for (let i = pair * joined; i < Math.min(finerPairs, (pair + 1) * joined); i++) {
      low = Math.min(low, finer.pairs[2 * i]!);
      high = Math.max(high, finer.pairs[2 * i + 1]!);
    }
    pairs[2 * pair] = low;
    pairs[2 * pair + 1] = high;
  }
  return { framesPerPair, pairs };
}

/**
 * Lowest and highest samples over all channels at each zoom of {@link PEAK_ZOOMS}.
 * @param channels of equal length, full scale +-1
 */
export function makePeaks(channels: readonly Float32Array[], sampleRateHz: Hertz): Peaks {
  const frameCount = channels[0]?.length ?? 0;
  const zooms = [finestZoom(channels, frameCount, PEAK_ZOOMS[0])];
  for (const framesPerPair of PEAK_ZOOMS.slice(1)) zooms.push(coarser(zooms.at(-1)!, framesPerPair));
  return { sampleRateHz, frameCount, zooms };
}
