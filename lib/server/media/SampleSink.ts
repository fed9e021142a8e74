import type { Hertz, Seconds } from "@/lib/units/quantities";
import { ChannelKeeper } from "./ChannelKeeper";
import type { DecodeOptions } from "./DecodedAudio";
import { MediaError, tooLong } from "./MediaError";
import type { SampleReceiver } from "./SampleReceiver";

/** Beyond two channels a record is folded to one. */
const MOST_CHANNELS = 2;

/** Records above it may be shorter, as many samples long as at this rate: a small file can say any rate. */
const FULL_LENGTH_RATE_HZ = 96_000;

/** How many samples of each channel a record may have. */
export function mostFrames(maxDurationSec: Seconds, sampleRateHz: Hertz): number {
  return Math.floor(maxDurationSec * Math.min(sampleRateHz, FULL_LENGTH_RATE_HZ));
}

/**
 * Where decoders put their samples block by block: hands them to the receiver, or keeps them where there is none,
 * and stops a record that runs too long.
 */
export class SampleSink {
  readonly sourceChannelCount: number;
  private readonly sampleRateHz: Hertz;
  private readonly maxDurationSec: Seconds;
  private readonly maxFrames: number;
  private readonly keeper: ChannelKeeper | null;
  private readonly receiver: SampleReceiver;
  private folded = new Float32Array(0);
  private length = 0;

  /**
   * @param expectedFrames samples of each channel, where the file tells; may be wrong
   * @throws {MediaError} damaged, for a rate or a count of channels that cannot be; too-long
   */
  constructor(
    sourceChannelCount: number,
    sampleRateHz: Hertz,
    { maxDurationSec, receiver }: Pick<DecodeOptions, "maxDurationSec" | "receiver">,
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
    this.keeper = receiver ? null : new ChannelKeeper(expectedFrames);
    this.receiver = receiver ?? this.keeper!;
    this.receiver.begin(sourceChannelCount > MOST_CHANNELS ? 1 : sourceChannelCount, sampleRateHz);
  }

  /** Samples of each channel so far. */
  get frameCount(): number {
    return this.length;
  }

  /**
   * Appends a block, one array for each channel of the file.
   * @throws {MediaError} too-long
   */
  append(block: readonly Float32Array[], frames: number): void {
    if (frames === 0) return;
    if (this.length + frames > this.maxFrames) throw this.tooLong();
    const { sourceChannelCount } = this;
    if (sourceChannelCount > MOST_CHANNELS) this.receiver.take([this.fold(block, frames)], frames);
    else
      this.receiver.take(
        block.length > sourceChannelCount ? block.slice(0, sourceChannelCount) : block,
        frames,
      );
    this.length += frames;
  }

  /** The channels kept, each as long as what was appended; none where a receiver has taken them. */
  finish(): Float32Array<ArrayBuffer>[] {
    return this.keeper?.finish() ?? [];
  }

  private fold(block: readonly Float32Array[], frames: number): Float32Array {
    if (this.folded.length < frames) this.folded = new Float32Array(frames);
    for (let i = 0; i < frames; i++) {
      let sum = 0;
      for (let channel = 0; channel < this.sourceChannelCount; channel++) sum += block[channel]![i]!;
      this.folded[i] = sum / this.sourceChannelCount;
    }
    return this.folded;
  }

  private tooLong(): MediaError {
    const rateHz = this.sampleRateHz;
    const fullLength = rateHz <= FULL_LENGTH_RATE_HZ;
    return fullLength ? tooLong(this.maxDurationSec) : tooLong(Math.floor(this.maxFrames / rateHz), rateHz);
  }
}
