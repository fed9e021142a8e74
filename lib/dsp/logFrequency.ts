import { midiToHertz } from "@/lib/units/pitch";
import type { Cents, Hertz, Midi } from "@/lib/units/quantities";
import { RealFft } from "./RealFft";
import { hannWindow } from "./windows";

/** Which pitches a log-frequency spectrum covers, and how finely. */
export interface LogFrequencyScale {
  sampleRateHz: Hertz;
  /** MIDI pitch at the centre of the lowest semitone. */
  lowestMidi: Midi;
  semitones: number;
  /** Odd, so that a bin lies on each semitone: with 3, bins 3s, 3s + 1 and 3s + 2 belong to semitone s, 3s + 1 in tune. */
  binsPerSemitone: number;
  /** Periods of its own frequency that a bin's window spans, where the bounds allow. */
  periods: number;
  shortestWindow: number;
  /** Longest window = size of the transform, a power of two. */
  longestWindow: number;
  /** The record's own tuning; the bins follow it. */
  tuningCents: Cents;
}

/** Bins of the whole scale. */
export function binCount(scale: LogFrequencyScale): number {
  return scale.semitones * scale.binsPerSemitone;
}

/** Frequency at the centre of a bin. */
export function binHertz(scale: LogFrequencyScale, bin: number): Hertz {
  const middle = (scale.binsPerSemitone - 1) / 2;
  return midiToHertz(scale.lowestMidi + (bin - middle) / scale.binsPerSemitone, scale.tuningCents);
}

/** Samples under a bin's window, even. */
export function binWindowLength(scale: LogFrequencyScale, bin: number): number {
  const wished = (scale.periods * scale.sampleRateHz) / binHertz(scale, bin);
  return 2 * Math.round(Math.min(scale.longestWindow, Math.max(scale.shortestWindow, wished)) / 2);
}

/** Entries of a kernel's spectrum under this share of its peak are left out (Brown & Puckette 1992 use a like threshold). */
const KERNEL_THRESHOLD = 0.005;

interface Kernel {
  firstBin: number;
  re: Float64Array;
  im: Float64Array;
}

/**
 * Constant-Q-like spectrum by one FFT and sparse kernels in the frequency domain:
 * J. C. Brown and M. S. Puckette, "An efficient algorithm for the calculation of a constant Q transform",
 * JASA 92 (1992); centred kernels as in C. Schoerkhuber and A. Klapuri, "Constant-Q transform toolbox for
 * music processing", SMC 2010. Windows are Hann, bounded in length at both ends. A sine of amplitude A at
 * the centre of a bin reads A.
 */
export class LogFrequencyTransform {
  readonly scale: LogFrequencyScale;
  private readonly fft: RealFft;
  private readonly kernels: Kernel[];

  constructor(scale: LogFrequencyScale) {
    const topHz = binHertz(scale, binCount(scale) - 1);
    if (topHz >= scale.sampleRateHz / 2) {
      throw new RangeError(`The top bin, ${topHz.toFixed(0)} Hz, lies above half the sample rate.`);
    }
    this.scale = scale;
    this.fft = new RealFft(scale.longestWindow);
    this.kernels = Array.from({ length: binCount(scale) }, (_, bin) => this.kernel(bin));
  }

  /** Writes the magnitudes of one unwindowed frame (length `longestWindow`, centred) into `into`. */
  transform(frame: Float64Array, into: Float32Array): void {
    const spectrum = this.fft.transform(frame);
    for (let k = 0; k < this.kernels.length; k++) {
      const { firstBin, re, im } = this.kernels[k]!;
      let sumRe = 0;
      let sumIm = 0;
      for (let j = 0, at = 2 * firstBin; j < re.length; j++, at += 2) {
        const x = spectrum[at]!;
        const y = spectrum[at + 1]!;
        sumRe += x * re[j]! + y * im[j]!;
        sumIm += y * re[j]! - x * im[j]!;
      }
      into[k] = Math.sqrt(sumRe * sumRe + sumIm * sumIm);
    }
  }

  /** By Parseval the correlation with a windowed complex exponential equals that of the two spectra, over N. */
  private kernel(bin: number): Kernel {
    const size = this.scale.longestWindow;
    const length = binWindowLength(this.scale, bin);
    const window = hannWindow(length);
    const gain = 2 / (window.reduce((sum, value) => sum + value, 0) * size);
    const omega = (2 * Math.PI * binHertz(this.scale, bin)) / this.scale.sampleRateHz;
    const start = (size - length) / 2;
    const cosine = new Float64Array(size);
    const sine = new Float64Array(size);
    for (let n = 0; n < length; n++) {
      const angle = omega * (start + n - size / 2);
      cosine[start + n] = window[n]! * Math.cos(angle);
      sine[start + n] = window[n]! * Math.sin(angle);
    }
    const half = this.fft.binCount;
    const c = this.fft.transform(cosine).slice(0, 2 * half);
    const s = this.fft.transform(sine).slice(0, 2 * half);
    // Transform of cos + i sin: real part = Re c - Im s, imaginary part = Im c + Re s.
    const re = Float64Array.from({ length: half }, (_, k) => (c[2 * k]! - s[2 * k + 1]!) * gain);
    const im = Float64Array.from({ length: half }, (_, k) => (c[2 * k + 1]! + s[2 * k]!) * gain);
    const size2 = re.map((value, k) => Math.hypot(value, im[k]!));
    const threshold = KERNEL_THRESHOLD * size2.reduce((peak, value) => Math.max(peak, value), 0);
    const first = size2.findIndex((value) => value >= threshold);
    const last = size2.findLastIndex((value) => value >= threshold);
    return { firstBin: first, re: re.slice(first, last + 1), im: im.slice(first, last + 1) };
  }
}
