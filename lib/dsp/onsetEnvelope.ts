import type { Hertz } from "@/lib/units/quantities";

/** The bands in which onsets are looked for, and the flux over them. */
export interface OnsetBands {
  sampleRateHz: Hertz;
  fftSize: number;
  lowestHz: Hertz;
  highestHz: Hertz;
  bandsPerOctave: number;
  /** Factor inside log(1 + factor * magnitude), magnitudes scaled so that a full-scale sine reads 1. */
  compression: number;
  /** Frames back that a frame is compared with. */
  lagFrames: number;
  /** Bands each way of the maximum filter over the earlier frame. */
  maximumReach: number;
}

interface Band {
  centreHz: Hertz;
  firstBin: number;
  weights: Float64Array;
}

/**
 * Spectral flux over logarithmically spaced triangular bands, against a frame `lagFrames` earlier that is
 * spread by a maximum filter over frequency, so that vibrato and glides raise no false onsets:
 * S. Boeck and G. Widmer, "Maximum filter vibrato suppression for onset detection", DAFx 2013 ("SuperFlux").
 */
export class OnsetFlux {
  readonly bandCount: number;
  /** Centres of the bands in Hz, rising. */
  readonly centresHz: readonly Hertz[];
  private readonly options: OnsetBands;
  private readonly bands: Band[];
  private readonly history: Float64Array[] = [];
  private readonly spread: Float64Array;

  constructor(options: OnsetBands) {
    this.options = options;
    this.bands = triangularBands(options);
    this.bandCount = this.bands.length;
    this.centresHz = this.bands.map((band) => band.centreHz);
    this.spread = new Float64Array(this.bandCount);
  }

  /**
   * The rise of each band in this frame, at least 0, in natural-log units; frames must come in order.
   * @param magnitudes one-sided spectrum, `fftSize / 2 + 1` bins
   */
  next(magnitudes: ArrayLike<number>, into: Float32Array): void {
    const level = new Float64Array(this.bandCount);
    for (let b = 0; b < this.bandCount; b++) {
      const { firstBin, weights } = this.bands[b]!;
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * magnitudes[firstBin + k]!;
      level[b] = Math.log1p(this.options.compression * sum);
    }
    this.history.push(level);
    if (this.history.length <= this.options.lagFrames) {
      into.fill(0);
      return;
    }
    const earlier = this.history.shift()!;
    const reach = this.options.maximumReach;
    for (let b = 0; b < this.bandCount; b++) {
      let peak = 0;
      for (let k = Math.max(0, b - reach); k <= Math.min(this.bandCount - 1, b + reach); k++) {
        peak = Math.max(peak, earlier[k]!);
      }
      this.spread[b] = peak;
    }
    for (let b = 0; b < this.bandCount; b++) into[b] = Math.max(0, level[b]! - this.spread[b]!);
  }
}

/** Triangles between neighbouring centres, each of sum 1; centres that fall on one FFT bin are merged. */
function triangularBands(options: OnsetBands): Band[] {
  const binHz = options.sampleRateHz / options.fftSize;
  const bins: number[] = [];
  const steps = Math.floor(options.bandsPerOctave * Math.log2(options.highestHz / options.lowestHz));
  for (let step = 0; step <= steps; step++) {
    const bin = Math.round((options.lowestHz * 2 ** (step / options.bandsPerOctave)) / binHz);
    if (bin >= 1 && bin < options.fftSize / 2 && bin !== bins.at(-1)) bins.push(bin);
  }
  const bands: Band[] = [];
  for (let i = 1; i + 1 < bins.length; i++) {
    const [low, middle, high] = [bins[i - 1]!, bins[i]!, bins[i + 1]!];
    const weights = new Float64Array(high - low - 1);
    let sum = 0;
    for (let bin = low + 1; bin < high; bin++) {
      const weight = bin <= middle ? (bin - low) / (middle - low) : (high - bin) / (high - middle);
      weights[bin - low - 1] = weight;
      sum += weight;
    }
    bands.push({ centreHz: middle * binHz, firstBin: low + 1, weights: weights.map((w) => w / sum) });
  }
  return bands;
}
