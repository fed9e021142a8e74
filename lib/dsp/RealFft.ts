import FFT from "fft.js";

/**
 * A plan for discrete Fourier transforms of real frames of one size (a power of two from 4 up), by a complex
 * transform of half the size (fft.js, radix 4) whose even and odd halves are then told apart (H. V. Sorensen et
 * al., "Real-valued fast Fourier transform algorithms", IEEE TASSP 35 (1987)). The plan owns its buffers:
 * `spectrum` holds the last result until the next call.
 */
export class RealFft {
  readonly size: number;
  /** Real and imaginary parts by turns, bins 0 to size / 2, unscaled. */
  readonly spectrum: Float64Array;
  private readonly plan: FFT;
  /** Transform of the frame read as complex numbers: even samples real, odd ones imaginary. */
  private readonly half: Float64Array;
  /** cos and -sin of 2 pi k / size by turns, k up to size / 4. */
  private readonly turns: Float64Array;

  constructor(size: number) {
    if (!Number.isInteger(size) || size < 4 || (size & (size - 1)) !== 0) {
      throw new RangeError(`The size of a transform must be a power of two from 4 up, not ${size}.`);
    }
    this.size = size;
    this.plan = new FFT(size / 2);
    this.spectrum = new Float64Array(size + 2);
    this.half = new Float64Array(size);
    this.turns = Float64Array.from({ length: size / 2 + 2 }, (_, at) => {
      const angle = (2 * Math.PI * (at >> 1)) / size;
      return at % 2 === 0 ? Math.cos(angle) : -Math.sin(angle);
    });
  }

  /** Bins of the one-sided spectrum: size / 2 + 1. */
  get binCount(): number {
    return this.size / 2 + 1;
  }

  /** Transforms `frame` (length `size`) into `spectrum`. */
  transform(frame: Float64Array): Float64Array {
    if (frame.length !== this.size) {
      throw new RangeError(`A frame of ${frame.length} samples does not fit a transform of ${this.size}.`);
    }
    const { half, spectrum, turns, size } = this;
    this.plan.transform(half, frame);
    spectrum[0] = half[0]! + half[1]!;
    spectrum[1] = 0;
    spectrum[size] = half[0]! - half[1]!;
    spectrum[size + 1] = 0;
    // Bins k and size / 2 - k come from the same two places.
    for (let low = 2, high = size - 2; low <= high; low += 2, high -= 2) {
      const evenRe = (half[low]! + half[high]!) / 2;
      const evenIm = (half[low + 1]! - half[high + 1]!) / 2;
      const oddRe = (half[low + 1]! + half[high + 1]!) / 2;
      const oddIm = (half[high]! - half[low]!) / 2;
      const cos = turns[low]!;
      const sin = turns[low + 1]!;
      const turnedRe = oddRe * cos - oddIm * sin;
      const turnedIm = oddRe * sin + oddIm * cos;
      spectrum[low] = evenRe + turnedRe;
      spectrum[low + 1] = evenIm + turnedIm;
      spectrum[high] = evenRe - turnedRe;
      spectrum[high + 1] = turnedIm - evenIm;
    }
    return spectrum;
  }

  /** Transforms `frame` and writes the `binCount` magnitudes into `magnitudes`. */
  magnitudes(frame: Float64Array, magnitudes: Float64Array): Float64Array {
    const spectrum = this.transform(frame);
    for (let bin = 0; bin < this.binCount; bin++) {
      const re = spectrum[2 * bin]!;
      const im = spectrum[2 * bin + 1]!;
      magnitudes[bin] = Math.sqrt(re * re + im * im);
    }
    return magnitudes;
  }
}
