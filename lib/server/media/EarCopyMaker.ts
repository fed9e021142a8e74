import {
  EAR_COPY_HEAD_BYTES,
  type EarCopyHead,
  encodeEarCopyHead,
  encodeFrames,
} from "@/lib/contracts/earCopy";
import { Resampler } from "@/lib/dsp/Resampler";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { Hertz } from "@/lib/units/quantities";
import type { SampleReceiver } from "./SampleReceiver";

/** Samples of each channel that are worked on at once. */
const BLOCK_SAMPLES = 8_192;

/** Where a copy is written. */
export interface EarCopyTarget {
  append(bytes: Uint8Array): void;
  /** Writes over what stands at the beginning. */
  rewriteStart(bytes: Uint8Array): void;
}

/** One channel at the ear's rate, as far as it has not been written. */
class Channel {
  private readonly resampler: Resampler;
  private waiting = new Float32Array(BLOCK_SAMPLES);
  count = 0;

  constructor(sampleRateHz: Hertz) {
    this.resampler = new Resampler(sampleRateHz, HEARING_RATE_HZ, (samples) => this.wait(samples));
  }

  push(samples: Float32Array): void {
    this.resampler.push(samples);
  }

  finish(): void {
    this.resampler.finish();
  }

  /** All that waits; the array is used again. */
  take(): Float32Array {
    const taken = this.waiting.subarray(0, this.count);
    this.count = 0;
    return taken;
  }

  private wait(samples: Float32Array): void {
    const needed = this.count + samples.length;
    if (needed > this.waiting.length) {
      const larger = new Float32Array(2 * needed);
      larger.set(this.waiting.subarray(0, this.count));
      this.waiting = larger;
    }
    this.waiting.set(samples, this.count);
    this.count = needed;
  }
}

/** Makes the copy that passages are heard from (lib/contracts/earCopy.ts), block by block as a record is decoded. */
export class EarCopyMaker implements SampleReceiver {
  private readonly target: EarCopyTarget;
  private channels: Channel[] = [];
  private frameCount = 0;
  /** Samples of each channel of the record; sums of the squares of their average and of half their difference. */
  private length = 0;
  private power = 0;
  private sidePower = 0;

  constructor(target: EarCopyTarget) {
    this.target = target;
  }

  begin(channelCount: number, sampleRateHz: Hertz): void {
    this.channels = Array.from({ length: channelCount }, () => new Channel(sampleRateHz));
    this.target.append(new Uint8Array(EAR_COPY_HEAD_BYTES));
  }

  take(channels: readonly Float32Array[], count: number): void {
    for (let from = 0; from < count; from += BLOCK_SAMPLES) {
      const to = Math.min(count, from + BLOCK_SAMPLES);
      this.measure(channels, from, to);
      this.channels.forEach((channel, index) => {
        channel.push(channels[index]!.subarray(from, to));
      });
      this.write();
    }
  }

  /**
   * The record is over: the copy is whole. The maker must not be used after.
   * @throws RangeError where the record holds no samples, or some that are no numbers
   */
  finish(): EarCopyHead {
    const level = Math.sqrt(this.power / this.length);
    if (!Number.isFinite(level)) {
      throw new RangeError(
        "The record holds no samples, or some that are no numbers; nothing can be heard of it.",
      );
    }
    for (const channel of this.channels) channel.finish();
    this.write();
    const head: EarCopyHead = {
      channelCount: this.channels.length === 1 ? 1 : 2,
      sampleRateHz: HEARING_RATE_HZ,
      frameCount: this.frameCount,
      level,
      sideLevel: Math.sqrt(this.sidePower / this.length),
    };
    this.target.rewriteStart(encodeEarCopyHead(head));
    return head;
  }

  private measure([left, right]: readonly Float32Array[], from: number, to: number): void {
    let { power, sidePower } = this;
    for (let i = from; i < to; i++) {
      const mid = right ? (left![i]! + right[i]!) / 2 : left![i]!;
      const side = right ? (left![i]! - right[i]!) / 2 : 0;
      power += mid * mid;
      sidePower += side * side;
    }
    this.power = power;
    this.sidePower = sidePower;
    this.length += to - from;
  }

  /** All channels have come equally far, since they were given equally much. */
  private write(): void {
    const samples = this.channels.map((channel) => channel.take());
    const count = samples[0]?.length ?? 0;
    if (count === 0) return;
    this.target.append(encodeFrames(samples, count));
    this.frameCount += count;
  }
}
