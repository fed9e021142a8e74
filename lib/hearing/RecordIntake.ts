import { PackedSignal } from "@/lib/dsp/PackedSignal";
import { Resampler } from "@/lib/dsp/Resampler";
import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { HEARING_RATE_HZ, LEVEL } from "./parameters";

/**
 * A record as the ear takes it: at {@link HEARING_RATE_HZ}, what its channels share brought to the level of LEVEL, and
 * what tells two channels apart by the same factor.
 */
export interface RecordSignal extends StereoSignal {
  side: PackedSignal | null;
  durationSec: Seconds;
}

/** Samples of each channel that are worked on at once. */
const BLOCK_SAMPLES = 8192;

/**
 * Takes a record block by block and keeps of it only what the ear hears. The result does not depend on how the
 * record is cut into blocks.
 */
export class RecordIntake {
  private readonly sampleRateHz: Hertz;
  private readonly mid: Track<Signal>;
  /** None as long as two channels were alike. In 16 bits: it is heard less finely than what they share. */
  private side: Track<PackedSignal> | null = null;
  private readonly block = new Float32Array(BLOCK_SAMPLES);
  private length = 0;

  /**
   * @param sampleRateHz of what comes, at least 4000
   * @throws RangeError for a rate that cannot be heard
   */
  constructor(sampleRateHz: Hertz) {
    if (!(sampleRateHz >= LEVEL.lowestRateHz && Number.isFinite(sampleRateHz))) {
      throw new RangeError(
        `A record needs a sample rate of at least ${LEVEL.lowestRateHz} Hz, not ${sampleRateHz}.`,
      );
    }
    this.sampleRateHz = sampleRateHz;
    this.mid = new Track(sampleRateHz, new Signal(HEARING_RATE_HZ));
  }

  /**
   * @param channels at least one, at any level; their average is heard, and where there are two, left and right, their
   * difference
   * @param count samples of each channel
   */
  take(channels: readonly Float32Array[], count: number): void {
    for (let from = 0; from < count; from += BLOCK_SAMPLES) {
      const block = this.block.subarray(0, Math.min(BLOCK_SAMPLES, count - from));
      if (channels.length === 2) this.takeSide(channels, from, block);
      mixed(channels, from, block);
      this.mid.push(block);
      this.length += block.length;
    }
  }

  /**
   * The record is over. The intake must not be used after.
   * @throws RangeError where it holds no samples, or some that are no numbers
   */
  finish(): RecordSignal {
    if (this.length === 0) throw new RangeError("The record holds no samples; there is nothing to hear.");
    const level = Math.sqrt(this.mid.power / this.length);
    if (!Number.isFinite(level)) {
      throw new RangeError("The record holds samples that are no numbers; decode it again.");
    }
    const isSilent = level <= LEVEL.silence;
    // All records are heard at one level, so that loudness changes nothing.
    const factor = isSilent ? 1 : LEVEL.rms / level;
    const apart = this.side ? Math.sqrt(this.side.power / this.length) : 0;
    const isStereo = !isSilent && apart >= LEVEL.stereoFrom * level;
    const signal = this.mid.finish();
    const side = isStereo ? (this.side?.finish() ?? null) : null;
    side?.close();
    if (factor !== 1) {
      signal.scale(factor);
      side?.scale(factor);
    }
    return { signal, side, durationSec: this.length / this.sampleRateHz };
  }

  private takeSide(channels: readonly Float32Array[], from: number, block: Float32Array): void {
    halfDifference(channels, from, block);
    if (!this.side) {
      if (block.every((value) => value === 0)) return;
      this.side = new Track(this.sampleRateHz, new PackedSignal(HEARING_RATE_HZ));
      this.side.pushSilence(this.length);
    }
    this.side.push(block);
  }
}

/** Samples on their way to the ear's rate, and their power. */
class Track<Kept extends { append(samples: Float32Array): void }> {
  /** Sum of the squares of all samples. */
  power = 0;
  private readonly kept: Kept;
  private readonly resampler: Resampler;

  constructor(sampleRateHz: Hertz, kept: Kept) {
    this.kept = kept;
    this.resampler = new Resampler(sampleRateHz, HEARING_RATE_HZ, (samples) => kept.append(samples));
  }

  push(samples: Float32Array): void {
    let { power } = this;
    for (let i = 0; i < samples.length; i++) power += samples[i]! * samples[i]!;
    this.power = power;
    this.resampler.push(samples);
  }

  pushSilence(count: number): void {
    const silence = new Float32Array(Math.min(BLOCK_SAMPLES, count));
    for (let left = count; left > 0; left -= silence.length) {
      this.resampler.push(silence.subarray(0, Math.min(silence.length, left)));
    }
  }

  finish(): Kept {
    this.resampler.finish();
    return this.kept;
  }
}

/** Writes the average of the channels from `from` on. */
function mixed(channels: readonly Float32Array[], from: number, into: Float32Array): void {
  const [left, right] = channels;
  if (!left) throw new RangeError("A record needs at least one channel.");
  if (!right) {
    into.set(left.subarray(from, from + into.length));
    return;
  }
  if (channels.length === 2) {
    for (let i = 0; i < into.length; i++) into[i] = (left[from + i]! + right[from + i]!) / 2;
    return;
  }
  for (let i = 0; i < into.length; i++) {
    let sum = 0;
    for (const channel of channels) sum += channel[from + i]!;
    into[i] = sum / channels.length;
  }
}

/** Writes half of what the first of two channels has more than the second, from `from` on. */
function halfDifference(channels: readonly Float32Array[], from: number, into: Float32Array): void {
  const [left, right] = channels as [Float32Array, Float32Array];
  for (let i = 0; i < into.length; i++) into[i] = (left[from + i]! - right[from + i]!) / 2;
}
