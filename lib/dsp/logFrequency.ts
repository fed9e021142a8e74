import { midiToHertz } from "@/lib/units/pitch";
import type { Cents, Hertz, Midi } from "@/lib/units/quantities";
import { RealFft } from "./RealFft";
import type { Address, KernelMemory } from "./simd/KernelMemory";
import { logFrequencyKernel } from "./simd/logFrequencyKernel";
import { startKernels } from "./simd/startKernels";
import { stereoFrequencyKernel } from "./simd/stereoFrequencyKernel";

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

/** Added to the power of both channels of a bin: no balance is told of silence. */
const BALANCE_FLOOR = 1e-8;

/** Where the spectra of two channels go, `width` numbers each. */
export interface StereoSpectra {
  mid: Address;
  side: Address;
  /**
   * 2 Re(M conj S) / (|M|^2 + |S|^2 + 1e-8) of a bin's complex amplitudes: from -1, all on the right, over 0 to 1, all on
   * the left, where `side` is left less right.
   */
  balance: Address;
}

/** Real weights of FFT bins from `firstBin` on: centred frames make the kernels of a symmetric window real. */
interface BinKernel {
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
  /** Bins of the scale. */
  readonly width: number;
  private readonly fft: RealFft;
  private readonly kernels: ReturnType<typeof startKernels>;
  private readonly table: Address;
  private readonly weights: Address;
  private readonly result: Address;
  /** The spectrum of a second channel. */
  private readonly second: Address;

  /** @param memory where frames lie; one of its own unless given */
  constructor(scale: LogFrequencyScale, memory?: KernelMemory) {
    this.width = binCount(scale);
    const topHz = binHertz(scale, this.width - 1);
    if (topHz >= scale.sampleRateHz / 2) {
      throw new RangeError(`The top bin, ${topHz.toFixed(0)} Hz, lies above half the sample rate.`);
    }
    this.scale = scale;
    this.fft = new RealFft(scale.longestWindow, null, memory);
    const { imBytes } = this.fft;
    this.kernels = startKernels(this.memory, [
      logFrequencyKernel(imBytes),
      stereoFrequencyKernel(imBytes, BALANCE_FLOOR),
    ]);
    const kernels = Array.from({ length: this.width }, (_, bin) => this.kernel(bin));
    const table = kernels.flatMap(({ firstBin, weights }) => [4 * firstBin, Math.ceil(weights.length / 4)]);
    this.table = this.memory.keep(new Float32Array(Int32Array.from(table).buffer));
    this.weights = this.memory.keep(
      kernels.flatMap(({ weights }) => [
        ...weights,
        ...new Array<number>((4 - (weights.length % 4)) % 4).fill(0),
      ]),
    );
    this.result = this.memory.take(this.width);
    this.second = this.memory.take((2 * imBytes) / 4);
  }

  get memory(): KernelMemory {
    return this.fft.memory;
  }

  /** Writes the magnitudes of one unwindowed frame (length `longestWindow`, centred) into `into`. */
  transform(frame: ArrayLike<number>, into: Float32Array): void {
    this.fft.transform(frame);
    this.weigh(this.result);
    into.set(this.memory.floats.subarray(this.result / 4, this.result / 4 + this.width));
  }

  /** The same of the frame that lies in the memory from `address` on, written to `into` there. */
  transformAt(address: Address, into: Address): void {
    this.fft.transformAt(address);
    this.weigh(into);
  }

  /** Magnitudes and balance of the frames of two channels that lie in the memory from `mid` and from `side` on. */
  transformStereoAt(mid: Address, side: Address, into: StereoSpectra): void {
    const { fft, second, table, weights, width } = this;
    fft.transformAt(mid);
    fft.transformAt(side, second);
    this.kernels.stereoFrequency!(
      fft.spectrum,
      second,
      table,
      weights,
      into.mid,
      into.side,
      into.balance,
      width,
    );
  }

  private weigh(into: Address): void {
    this.kernels.logFrequency!(this.fft.spectrum, this.table, this.weights, into, this.width);
  }

  /**
   * By Parseval's theorem the correlation of a frame with a windowed complex exponential equals that of their
   * spectra, over the size. The window lies about the middle of the frame, hence the alternating sign.
   */
  private kernel(bin: number): BinKernel {
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
