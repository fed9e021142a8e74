import { Resampler } from "@/lib/dsp/Resampler";
import { Signal } from "@/lib/dsp/Signal";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { HEARING_RATE_HZ, LEVEL } from "./parameters";

/** A record as the ear takes it: mono, at {@link HEARING_RATE_HZ}, brought to the level of LEVEL. */
export interface RecordSignal {
  signal: Signal;
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
  private readonly signal = new Signal(HEARING_RATE_HZ);
  private readonly resampler: Resampler;
  private readonly mono = new Float32Array(BLOCK_SAMPLES);
  private length = 0;
  /** Sum of the squares of all samples. */
  private power = 0;

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
    this.resampler = new Resampler(sampleRateHz, HEARING_RATE_HZ, (samples) => this.signal.append(samples));
  }

  /**
   * @param channels at least one, at any level; their average is heard
   * @param count samples of each channel
   */
  take(channels: readonly Float32Array[], count: number): void {
    for (let from = 0; from < count; from += BLOCK_SAMPLES) {
      const length = Math.min(BLOCK_SAMPLES, count - from);
      const mono = this.mono.subarray(0, length);
      mixed(channels, from, mono);
      let { power } = this;
      for (let i = 0; i < length; i++) power += mono[i]! * mono[i]!;
      this.power = power;
      this.resampler.push(mono);
      this.length += length;
    }
  }

  /**
   * The record is over. The intake must not be used after.
   * @throws RangeError where it holds no samples, or some that are no numbers
   */
  finish(): RecordSignal {
    if (this.length === 0) throw new RangeError("The record holds no samples; there is nothing to hear.");
    const level = Math.sqrt(this.power / this.length);
    if (!Number.isFinite(level)) {
      throw new RangeError("The record holds samples that are no numbers; decode it again.");
    }
    this.resampler.finish();
    // All records are heard at one level, so that loudness changes nothing.
    if (level > LEVEL.silence) this.signal.scale(LEVEL.rms / level);
    return { signal: this.signal, durationSec: this.length / this.sampleRateHz };
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
