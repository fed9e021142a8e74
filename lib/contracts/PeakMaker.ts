import type { Hertz } from "@/lib/units/quantities";
import { PEAK_ZOOMS, type Peaks, type PeakZoom } from "./peaks";

/** Full scale, so that lowest and highest are alike. */
const FULL_SCALE = 127;

/** Rounded outwards, so that a pair never hides a sample. */
function toStep(sample: number, round: (value: number) => number): number {
  return Math.max(-FULL_SCALE, Math.min(FULL_SCALE, round(sample * FULL_SCALE)));
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
 * Lowest and highest samples over all channels at each zoom of {@link PEAK_ZOOMS}, found as the samples come.
 */
export class PeakMaker {
  private sampleRateHz: Hertz = 0;
  private frameCount = 0;
  private low = Number.POSITIVE_INFINITY;
  private high = Number.NEGATIVE_INFINITY;
  private readonly pairs: number[] = [];

  begin(_channelCount: number, sampleRateHz: Hertz): void {
    this.sampleRateHz = sampleRateHz;
  }

  take(channels: readonly Float32Array[], count: number): void {
    const [framesPerPair] = PEAK_ZOOMS;
    for (let from = 0; from < count; ) {
      const to = Math.min(count, from + framesPerPair - (this.frameCount % framesPerPair));
      for (const channel of channels) {
        for (let i = from; i < to; i++) {
          const sample = channel[i]!;
          if (sample < this.low) this.low = sample;
          if (sample > this.high) this.high = sample;
        }
      }
      this.frameCount += to - from;
      from = to;
      if (this.frameCount % framesPerPair === 0) this.endPair();
    }
  }

  /** The peaks. The maker must not be used after. */
  finish(): Peaks {
    if (this.frameCount % PEAK_ZOOMS[0] > 0) this.endPair();
    const zooms = [{ framesPerPair: PEAK_ZOOMS[0], pairs: Int8Array.from(this.pairs) }] as PeakZoom[];
    for (const framesPerPair of PEAK_ZOOMS.slice(1)) zooms.push(coarser(zooms.at(-1)!, framesPerPair));
    return { sampleRateHz: this.sampleRateHz, frameCount: this.frameCount, zooms };
  }

  private endPair(): void {
    this.pairs.push(toStep(this.low, Math.floor), toStep(this.high, Math.ceil));
    this.low = Number.POSITIVE_INFINITY;
    this.high = Number.NEGATIVE_INFINITY;
  }
}
