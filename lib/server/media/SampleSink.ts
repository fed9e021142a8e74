import type { Hertz, Seconds } from "@/lib/units/quantities";
import { MediaError, tooLong } from "./MediaError";

/** Beyond two channels a record is folded to one. */
const MOST_CHANNELS = 2;

/** Records above it may be shorter, as many samples long as at this rate: a small file can say any rate. */
const FULL_LENGTH_RATE_HZ = 96_000;

/** How many samples of each channel a record may have. */
export function mostFrames(maxDurationSec: Seconds, sampleRateHz: Hertz): number {
  return Math.floor(maxDurationSec * Math.min(sampleRateHz, FULL_LENGTH_RATE_HZ));
}

/**
 * Gathers samples block by block into one array for each channel, and stops a record that runs too long before
 * it fills the memory.
 */
export class SampleSink {
  readonly sourceChannelCount: number;
  private readonly sampleRateHz: Hertz;
  private readonly maxDurationSec: Seconds;
  private readonly maxFrames: number;
  private arrays: Float32Array<ArrayBuffer>[];
  private length = 0;

  /**
   * @param expectedFrames samples of each channel, where the file tells; may be wrong
   * @throws {MediaError} damaged, for a rate or a count of channels that cannot be; too-long
   */
  constructor(
    sourceChannelCount: number,
    sampleRateHz: Hertz,
    maxDurationSec: Seconds,
    expectedFrames: number | null = null,
  ) {
    if (!(sourceChannelCount >= 1 && sourceChannelCount <= 255)) throw new MediaError("damaged");
    // From telephone sound to the highest rate that converters work at.
    if (!(sampleRateHz >= 4_000 && sampleRateHz <= 768_000)) throw new MediaError("damaged");
    this.sourceChannelCount = sourceChannelCount;
    this.sampleRateHz = sampleRateHz;
    this.maxDurationSec = maxDurationSec;
    this.maxFrames = mostFrames(maxDurationSec, sampleRateHz);
    if (expectedFrames !== null && expectedFrames > this.maxFrames) throw this.tooLong();
    const capacity = Math.max(1, expectedFrames ?? Math.min(this.maxFrames, 60 * sampleRateHz));
    const kept = sourceChannelCount > MOST_CHANNELS ? 1 : sourceChannelCount;
    this.arrays = Array.from({ length: kept }, () => new Float32Array(capacity));
  }

  get frameCount(): number {
    return this.length;
  }

  /**
   * Appends a block, one array for each channel of the file.
   * @throws {MediaError} too-long
   */
  append(block: readonly Float32Array[], frames: number): void {
    if (frames === 0) return;
    this.makeRoom(frames);
    if (this.sourceChannelCount > MOST_CHANNELS) {
      const target = this.arrays[0]!;
      for (let i = 0; i < frames; i++) {
        let sum = 0;
        for (let channel = 0; channel < this.sourceChannelCount; channel++) sum += block[channel]![i]!;
        target[this.length + i] = sum / this.sourceChannelCount;
      }
    } else {
      this.arrays.forEach((target, channel) => {
        target.set(block[channel]!.subarray(0, frames), this.length);
      });
    }
    this.length += frames;
  }

  /** The channels gathered, each as long as what was appended. The sink must not be used after. */
  finish(): Float32Array<ArrayBuffer>[] {
    return this.arrays.map((array) => array.subarray(0, this.length));
  }

  private tooLong(): MediaError {
    const rateHz = this.sampleRateHz;
    const fullLength = rateHz <= FULL_LENGTH_RATE_HZ;
    return fullLength ? tooLong(this.maxDurationSec) : tooLong(Math.floor(this.maxFrames / rateHz), rateHz);
  }

  private makeRoom(frames: number): void {
    const needed = this.length + frames;
    if (needed > this.maxFrames) throw this.tooLong();
    if (needed <= this.arrays[0]!.length) return;
    const capacity = Math.min(this.maxFrames, Math.max(needed, Math.ceil(this.arrays[0]!.length * 1.5)));
    this.arrays = this.arrays.map((array) => {
      const larger = new Float32Array(capacity);
      larger.set(array.subarray(0, this.length));
      return larger;
    });
  }
}
