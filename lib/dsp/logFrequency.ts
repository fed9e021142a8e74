import { midiToHertz } from "@/lib/units/pitch";
import type { Cents, Hertz, Midi } from "@/lib/units/quantities";
import { RealFft } from "./RealFft";

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
  /** Share of its peak under which entries of a kernel's spectrum are left out; {@link KERNEL_THRESHOLD} else. */
  kernelThreshold?: number;
  /** Which even length stands for a wished one: the nearest unless said otherwise. */
  windowRounding?: "nearest" | "down";
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
  const half = Math.min(scale.longestWindow, Math.max(scale.shortestWindow, wished)) / 2;
  return 2 * (scale.windowRounding === "down" ? Math.floor(half) : Math.round(half));
}

/** Entries of a kernel's spectrum under this share of its peak are left out (Brown & Puckette 1992 use a like threshold). */
const KERNEL_THRESHOLD = 0.005;

/** Kernels are looked at this many bins of their own window each way; farther out the Hann window is under the threshold. */
const KERNEL_REACH = 10;

/** Real weights of FFT bins from `firstBin` on: centred frames make the kernels of a symmetric window real. */
interface Kernel {
  firstBin: number;
  weights: Float64Array;
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
      const { firstBin, weights } = this.kernels[k]!;
      let sumRe = 0;
      let sumIm = 0;
      for (let j = 0, at = 2 * firstBin; j < weights.length; j++, at += 2) {
        sumRe += spectrum[at]! * weights[j]!;
        sumIm += spectrum[at + 1]! * weights[j]!;
      }
      into[k] = Math.sqrt(sumRe * sumRe + sumIm * sumIm);
    }
  }

  /**
   * By Parseval's theorem the correlation of a frame with a windowed complex exponential equals that of their
   * spectra, over the size. The window lies about the middle of the frame, hence the alternating sign.
   */
  private kernel(bin: number): Kernel {
    const size = this.scale.longestWindow;
    const length = binWindowLength(this.scale, bin);
    const centre = (binHertz(this.scale, bin) * size) / this.scale.sampleRateHz;
    const reach = (KERNEL_REACH * size) / length;
    const first = Math.max(0, Math.ceil(centre - reach));
    const last = Math.min(size / 2, Math.floor(centre + reach));
    const gain = 2 / (hannSpectrum(0, length) * size);
    const all = Float64Array.from({ length: last - first + 1 }, (_, j) => {
      const value = gain * hannSpectrum((2 * Math.PI * (first + j - centre)) / size, length);
      return (first + j) % 2 === 0 ? value : -value;
    });
    const share = this.scale.kernelThreshold ?? KERNEL_THRESHOLD;
    const threshold = share * all.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
    const from = all.findIndex((value) => Math.abs(value) >= threshold);
    const to = all.findLastIndex((value) => Math.abs(value) >= threshold);
    return { firstBin: first + from, weights: all.slice(from, to + 1) };
  }
}

/** Transform of the Hann window of even length about 0 at `radians` a sample: three Dirichlet kernels (Harris 1978). */
function hannSpectrum(radians: number, length: number): number {
  const step = (2 * Math.PI) / length;
  return (
    dirichlet(radians, length) / 2 +
    dirichlet(radians - step, length) / 4 +
    dirichlet(radians + step, length) / 4
  );
}

/** Real part of the sum of exp(-i radians n) for n from -length / 2 to length / 2 - 1. */
function dirichlet(radians: number, length: number): number {
  const half = radians / 2;
  if (Math.abs(Math.sin(half)) < 1e-12) return length;
  return (Math.cos(half) * Math.sin(length * half)) / Math.sin(half);
}
