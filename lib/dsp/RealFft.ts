import FFT from "fft.js";

/**
 * A plan for discrete Fourier transforms of real frames of one size (a power of two from 4 up), by fft.js
 * (radix 4). The plan owns its buffers: `spectrum` holds the last result until the next call.
 */
export class RealFft {
  readonly size: number;
  /** Real and imaginary parts by turns, bins 0 to size / 2, unscaled. */
  readonly spectrum: Float64Array;
  private readonly plan: FFT;

  constructor(size: number) {
    if (!Number.isInteger(size) || size < 4 || (size & (size - 1)) !== 0) {
      throw new RangeError(`The size of a transform must be a power of two from 4 up, not ${size}.`);
    }
    this.size = size;
    this.plan = new FFT(size);
    this.spectrum = new Float64Array(2 * size);
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
    this.plan.realTransform(this.spectrum, frame);
    return this.spectrum;
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
