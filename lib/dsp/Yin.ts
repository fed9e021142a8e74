import type { Hertz } from "@/lib/units/quantities";
import { RealFft } from "./RealFft";

/** The period that was found in a frame. */
export interface Periodicity {
  frequencyHz: Hertz;
  /** Share of the frame's power that does not repeat, about 0 (a pure period) to 1 (none). */
  aperiodicity: number;
}

/** The dip that is taken is the first below this, so that a whole number of periods is not taken for one. */
const THRESHOLD = 0.1;

/**
 * A plan for finding the fundamental frequency of one sound by YIN, steps 1 to 5 (A. de Cheveigné and H. Kawahara,
 * "YIN, a fundamental frequency estimator for speech and music", JASA 111 (2002)). Two sounds at once that have a
 * period in common are taken for one with that period.
 */
export class Yin {
  private readonly fft: RealFft;
  private readonly longest: number;
  private readonly shortest: number;
  private readonly window: number;
  private readonly part: Float32Array;

  /**
   * @param frameLength samples of a frame: a power of two, and at least two periods of `lowestHz`
   * @throws RangeError where frames are too short, or the range is none
   */
  constructor(
    private readonly frameLength: number,
    private readonly sampleRateHz: Hertz,
    { lowestHz, highestHz }: { lowestHz: Hertz; highestHz: Hertz },
  ) {
    this.longest = Math.ceil(sampleRateHz / lowestHz) + 1;
    this.shortest = Math.max(2, Math.floor(sampleRateHz / highestHz));
    // One lag beyond the longest is looked at too, for the vertex.
    this.window = frameLength - this.longest - 1;
    if (this.window < this.longest || this.shortest >= this.longest)
      throw new RangeError(
        `${frameLength} samples at ${sampleRateHz} Hz hold no two periods of ${lowestHz} Hz, or ${highestHz} Hz lies no higher.`,
      );
    this.fft = new RealFft(frameLength);
    this.part = new Float32Array(frameLength);
  }

  /** @returns null where the frame is silent */
  find(frame: Float32Array): Periodicity | null {
    const difference = this.differences(frame);
    const normal = normalised(difference);
    if (!normal) return null;
    const lag = firstDip(normal, this.shortest);
    const offset = vertex(difference[lag - 1]!, difference[lag]!, difference[lag + 1]!);
    const aperiodicity = Math.min(1, normal[lag]!);
    return { frequencyHz: this.sampleRateHz / (lag + offset), aperiodicity };
  }

  /**
   * Equation 6, squared difference of the first `window` samples from those a lag later, by lag: the
   * power of both, less twice their products.
   */
  private differences(frame: Float32Array): Float64Array {
    const products = this.products(frame);
    const difference = new Float64Array(this.longest + 2);
    let own = 0;
    for (let index = 0; index < this.window; index += 1) own += frame[index]! ** 2;
    let later = own;
    for (let lag = 1; lag < difference.length; lag += 1) {
      later += frame[this.window + lag - 1]! ** 2 - frame[lag - 1]! ** 2;
      difference[lag] = Math.max(0, own + later - 2 * products[lag]!);
    }
    return difference;
  }

  /**
   * Sum of products of the first `window` samples with those a lag later. No lag reaches past the frame, so nothing
   * wraps round. The way back is the forward transform of the Hartley spectrum, which is its own inverse
   * (R. N. Bracewell, "Discrete Hartley transform", JOSA 73 (1983)).
   */
  private products(frame: Float32Array): Float64Array {
    const { fft, part, frameLength } = this;
    part.fill(0).set(frame.subarray(0, this.window));
    fft.transform(part);
    const re = fft.re.slice();
    const im = fft.im.slice();
    fft.transform(frame);
    const half = frameLength / 2;
    for (let bin = 0; bin <= half; bin += 1) {
      const [a, b, c, d] = [re[bin]!, im[bin]!, fft.re[bin]!, fft.im[bin]!];
      part[bin] = a * c + b * d - (a * d - b * c);
      if (bin > 0 && bin < half) part[frameLength - bin] = a * c + b * d + (a * d - b * c);
    }
    fft.transform(part);
    return Float64Array.from(
      { length: this.longest + 2 },
      (_, lag) => (fft.re[lag]! - fft.im[lag]!) / frameLength,
    );
  }
}

/** Equation 8: each difference beside the mean of those at shorter lags. Null where nothing differs. */
function normalised(difference: Float64Array): Float64Array | null {
  const normal = new Float64Array(difference.length).fill(1);
  let sum = 0;
  for (let lag = 1; lag < difference.length; lag += 1) {
    sum += difference[lag]!;
    normal[lag] = sum > 0 ? (difference[lag]! * lag) / sum : 1;
  }
  return sum > 0 ? normal : null;
}

/** Bottom of the first dip below the threshold; the lowest point where none goes below. The last lag is for the vertex. */
function firstDip(normal: Float64Array, shortest: number): number {
  const last = normal.length - 2;
  let lowest = shortest;
  for (let lag = shortest; lag <= last; lag += 1) {
    if (normal[lag]! < THRESHOLD) {
      while (lag < last && normal[lag + 1]! < normal[lag]!) lag += 1;
      return lag;
    }
    if (normal[lag]! < normal[lowest]!) lowest = lag;
  }
  return lowest;
}

/** Where between -1 and 1 the parabola through three points has its bottom. */
function vertex(before: number, at: number, after: number): number {
  const bend = before - 2 * at + after;
  return bend > 0 ? Math.max(-1, Math.min(1, (before - after) / (2 * bend))) : 0;
}
