import type { Hertz } from "@/lib/units/quantities";
import { kaiserAt, kaiserBeta } from "./windows";

/** Stop band of the anti-alias filter in dB; 90 dB lies under the noise of 14-bit sound. */
const STOP_BAND_DB = 90;
/** Share of the lower of the two Nyquist frequencies that passes untouched; the rest is transition band. */
const PASS_BAND = 0.8;

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/**
 * Samples of one rate read at another, without keeping the converted record: any stretch can be asked for,
 * in any order, and a stretch always holds the same numbers however it is asked for.
 *
 * Windowed-sinc polyphase filter at the exact ratio of the two rates, Kaiser window
 * (R. E. Crochiere and L. R. Rabiner, "Multirate Digital Signal Processing", Prentice-Hall 1983; filter length
 * by Kaiser 1974: (attenuation - 7.95) / (2.285 * transition band)). Linear phase, no delay; silence is
 * assumed before and after the record.
 */
export class ResampledSignal {
  readonly sampleRateHz: Hertz;
  /** Factor on every sample read. */
  readonly gain: number;
  /** Samples at the new rate. */
  readonly length: number;
  private readonly source: Float32Array;
  private readonly up: number;
  private readonly down: number;
  private readonly halfLength: number;
  /** Filters of the phases reached so far, each 2 * halfLength + 1 taps. */
  private readonly phases: (Float64Array | undefined)[] = [];
  private readonly cutoff: number;
  private readonly beta: number;

  /**
   * @param source mono samples, any scale
   * @param sourceRateHz rate of `source`, above 0; rounded to whole hertz
   * @param targetRateHz rate to read at, above 0; rounded to whole hertz
   * @param gain factor on every sample read
   */
  constructor(source: Float32Array, sourceRateHz: Hertz, targetRateHz: Hertz, gain = 1) {
    const from = Math.round(sourceRateHz);
    const to = Math.round(targetRateHz);
    if (!(from > 0 && to > 0)) {
      throw new RangeError(`Sample rates must lie above 0 Hz, not ${sourceRateHz} and ${targetRateHz}.`);
    }
    const divisor = greatestCommonDivisor(from, to);
    this.up = to / divisor;
    this.down = from / divisor;
    this.source = source;
    this.gain = gain;
    this.sampleRateHz = to;
    this.length = Math.ceil((source.length * this.up) / this.down);
    const scale = Math.min(1, to / from);
    const transitionRadians = Math.PI * scale * (1 - PASS_BAND);
    const order = (STOP_BAND_DB - 7.95) / (2.285 * transitionRadians);
    this.halfLength = Math.ceil(order / 2);
    this.cutoff = (scale * (1 + PASS_BAND)) / 2;
    this.beta = kaiserBeta(STOP_BAND_DB);
  }

  /** Fills `into` with the samples from `start` on (may be negative); what lies outside the record is 0. */
  read(start: number, into: Float32Array): Float32Array {
    if (this.up === this.down) {
      into.fill(0);
      const first = Math.max(0, start);
      const end = Math.min(this.source.length, start + into.length);
      for (let n = first; n < end; n++) into[n - start] = this.gain * this.source[n]!;
      return into;
    }
    for (let n = 0; n < into.length; n++) into[n] = this.gain * this.at(start + n);
    return into;
  }

  /** The same signal with all its samples converted now, for readers that ask for them again and again. */
  converted(): ResampledSignal {
    const samples = this.read(0, new Float32Array(this.length));
    return new ResampledSignal(samples, this.sampleRateHz, this.sampleRateHz);
  }

  private at(index: number): number {
    if (index < 0 || index >= this.length) return 0;
    const position = index * this.down;
    const centre = Math.floor(position / this.up);
    const filter = this.filter(position % this.up);
    const source = this.source;
    const first = Math.max(0, centre - this.halfLength);
    const end = Math.min(source.length, centre + this.halfLength + 1);
    const shift = this.halfLength - centre;
    // Four sums side by side: one alone would wait for each addition before the next.
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    let k = first;
    for (; k + 3 < end; k += 4) {
      const tap = k + shift;
      a += source[k]! * filter[tap]!;
      b += source[k + 1]! * filter[tap + 1]!;
      c += source[k + 2]! * filter[tap + 2]!;
      d += source[k + 3]! * filter[tap + 3]!;
    }
    for (; k < end; k++) a += source[k]! * filter[k + shift]!;
    return a + b + (c + d);
  }

  /** The filter whose centre lies phase / up samples after a sample of the source, scaled to pass 0 Hz at 1. */
  private filter(phase: number): Float64Array {
    const known = this.phases[phase];
    if (known) return known;
    const taps = new Float64Array(2 * this.halfLength + 1);
    const offset = phase / this.up;
    let sum = 0;
    for (let k = 0; k < taps.length; k++) {
      const x = k - this.halfLength - offset;
      const sinc = x === 0 ? 1 : Math.sin(Math.PI * this.cutoff * x) / (Math.PI * this.cutoff * x);
      taps[k] = sinc * kaiserAt(x / (this.halfLength + 1), this.beta);
      sum += taps[k]!;
    }
    for (let k = 0; k < taps.length; k++) taps[k]! /= sum;
    this.phases[phase] = taps;
    return taps;
  }
}
