import type { Hertz } from "@/lib/units/quantities";
import { FILTER_RUN, filterKernel } from "./simd/filterKernel";
import { type Address, KernelMemory } from "./simd/KernelMemory";
import { type Kernel, startKernels } from "./simd/startKernels";
import { kaiserAt, kaiserBeta } from "./windows";

/** Stop band of the anti-alias filter in dB; 90 dB lies under the noise of 14-bit sound. */
const STOP_BAND_DB = 90;
/** Share of the lower of the two Nyquist frequencies that passes untouched; the rest is transition band. */
const PASS_BAND = 0.8;
/** New samples of the source that are worked on at once, and of the result at most. */
const BLOCK_SAMPLES = 8192;

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/**
 * Brings samples to another rate as they come; what comes out is the same however they are cut into blocks.
 *
 * Windowed-sinc polyphase filter at the exact ratio of the two rates, Kaiser window
 * (R. E. Crochiere and L. R. Rabiner, "Multirate Digital Signal Processing", Prentice-Hall 1983; filter length
 * by Kaiser 1974: (attenuation - 7.95) / (2.285 * transition band)). Linear phase, no delay; silence is
 * assumed before and after the record.
 */
export class Resampler {
  private readonly up: number;
  private readonly down: number;
  private readonly onSamples: (samples: Float32Array) => void;
  private readonly halfLength: number;
  /** Length of the filters, filled up with zeros to whole runs. */
  private readonly taps: number;
  private readonly cutoff: number;
  private readonly beta = kaiserBeta(STOP_BAND_DB);
  private readonly memory = new KernelMemory();
  private readonly filter: Kernel;
  /** Filters of the phases reached so far. */
  private readonly phases: (Address | undefined)[] = [];
  private readonly source: Address;
  private readonly room: number;
  private readonly result: Address;
  private readonly mostResults: number;
  /** Place in the record of the first sample of the source that is kept, and how many are. */
  private start: number;
  private filled: number;
  private length = 0;
  private next = 0;

  /**
   * @param sourceRateHz rate of what comes, above 0; rounded to whole hertz
   * @param targetRateHz rate of what is given out, above 0; rounded to whole hertz
   * @param onSamples given the samples in order; the array is used again
   */
  constructor(sourceRateHz: Hertz, targetRateHz: Hertz, onSamples: (samples: Float32Array) => void) {
    const from = Math.round(sourceRateHz);
    const to = Math.round(targetRateHz);
    if (!(from > 0 && to > 0)) {
      throw new RangeError(`Sample rates must lie above 0 Hz, not ${sourceRateHz} and ${targetRateHz}.`);
    }
    const divisor = greatestCommonDivisor(from, to);
    this.up = to / divisor;
    this.down = from / divisor;
    this.onSamples = onSamples;
    const scale = Math.min(1, to / from);
    const transitionRadians = Math.PI * scale * (1 - PASS_BAND);
    const order = (STOP_BAND_DB - 7.95) / (2.285 * transitionRadians);
    this.halfLength = Math.ceil(order / 2);
    this.taps = FILTER_RUN * Math.ceil((2 * this.halfLength + 1) / FILTER_RUN);
    this.cutoff = (scale * (1 + PASS_BAND)) / 2;
    this.filter = startKernels(this.memory, [filterKernel()]).filter!;
    this.room = this.taps + Math.ceil(this.down / this.up) + BLOCK_SAMPLES;
    this.source = this.memory.take(this.room + FILTER_RUN);
    this.mostResults = Math.ceil((this.room * this.up) / this.down) + 1;
    this.result = this.memory.take(this.mostResults);
    this.start = -this.halfLength;
    this.filled = this.halfLength;
  }

  /** Takes the next samples of the source. */
  push(samples: Float32Array): void {
    this.length += samples.length;
    if (this.up === this.down) this.onSamples(samples);
    else this.take(samples);
  }

  /** The record is over: the last samples are given out, as many in all as the record lasts, rounded up. */
  finish(): void {
    if (this.up === this.down) return;
    this.take(new Float32Array(this.halfLength + Math.ceil(this.down / this.up)));
  }

  private take(samples: Float32Array): void {
    for (let done = 0; done < samples.length; ) {
      const count = Math.min(samples.length - done, this.room - this.filled);
      this.memory.floats.set(samples.subarray(done, done + count), this.source / 4 + this.filled);
      this.filled += count;
      done += count;
      this.answer();
    }
  }

  /** Gives out every sample for which all of the source that it needs is there. */
  private answer(): void {
    const { up, down, halfLength, start } = this;
    const whole = Math.ceil((this.length * up) / down);
    const end = Math.min(whole, Math.ceil(((start + this.filled - halfLength) * up) / down));
    const count = end - this.next;
    if (count <= 0) return;
    for (let turn = 0; turn < Math.min(up, count); turn++) {
      const position = (this.next + turn) * down;
      const first = Math.floor(position / up) - halfLength - start;
      this.filter(
        this.source + 4 * first,
        4 * down,
        this.phase(position % up),
        this.taps / FILTER_RUN,
        this.result + 4 * turn,
        4 * up,
        Math.ceil((count - turn) / up),
      );
    }
    const { floats } = this.memory;
    this.onSamples(floats.subarray(this.result / 4, this.result / 4 + count));
    this.next = end;
    const unneeded = Math.floor((end * down) / up) - halfLength - start;
    const from = this.source / 4;
    floats.copyWithin(from, from + unneeded, from + this.filled);
    this.filled -= unneeded;
    this.start += unneeded;
  }

  /** The filter whose centre lies phase / up samples after a sample of the source, scaled to pass 0 Hz at 1. */
  private phase(phase: number): Address {
    const known = this.phases[phase];
    if (known !== undefined) return known;
    const { halfLength, cutoff, beta } = this;
    const offset = phase / this.up;
    const taps = new Float64Array(this.taps);
    let sum = 0;
    for (let k = 0; k <= 2 * halfLength; k++) {
      const x = k - halfLength - offset;
      const sinc = x === 0 ? 1 : Math.sin(Math.PI * cutoff * x) / (Math.PI * cutoff * x);
      taps[k] = sinc * kaiserAt(x / (halfLength + 1), beta);
      sum += taps[k]!;
    }
    const address = this.memory.keep(taps.map((value) => value / sum));
    this.phases[phase] = address;
    return address;
  }
}
