import type { Hertz } from "@/lib/units/quantities";

/** Two channels of as many samples. */
export type Stereo = readonly [left: Float32Array, right: Float32Array];

/** Part of a record as it lies in memory: one or two channels of 16-bit samples, as many in each. */
export type Chunk16 = readonly Int16Array<ArrayBuffer>[];

const FULL_SCALE_16 = 32_767;

/**
 * A whole record in memory, in 16 bits: half of what floating samples take, its rounding 98 dB below full scale (6.02 dB a
 * bit and 1.76, Bennett 1948). It is added to chunk by chunk, all but the last equally long, and may be read meanwhile.
 */
export class RecordSamples {
  private readonly chunks: Chunk16[] = [];
  private chunkFrames = 0;
  private frames = 0;

  /** @param peak of the samples, full scale 1: what a lossy record has beyond full scale is kept */
  constructor(
    readonly rateHz: Hertz,
    private readonly peak: number,
  ) {}

  get frameCount(): number {
    return this.frames;
  }

  add(chunk: Chunk16): void {
    const length = chunk[0]?.length ?? 0;
    if (this.chunks.length === 0) this.chunkFrames = length;
    this.chunks.push(chunk);
    this.frames += length;
  }

  /**
   * Copies frames of the record; one channel is heard in both ears, and before and after the record all is silent.
   * @param at first frame of the record, a whole number, negative before the record
   * @param into gets `count` samples from `offset` on in each channel
   */
  read(at: number, into: Stereo, offset: number, count: number): void {
    for (let done = 0; done < count; ) {
      const frame = at + done;
      const chunk = frame < 0 ? undefined : this.chunks[Math.floor(frame / this.chunkFrames)];
      const left = chunk?.[0];
      if (!left) {
        const silentCount = frame < 0 ? Math.min(count - done, -frame) : count - done;
        for (const channel of into) channel.fill(0, offset + done, offset + done + silentCount);
        done += silentCount;
        continue;
      }
      const right = chunk[1] ?? left;
      const first = frame % this.chunkFrames;
      const length = Math.min(count - done, left.length - first);
      if (length <= 0) {
        // The last chunk is shorter: beyond it there is silence.
        for (const channel of into) channel.fill(0, offset + done, offset + count);
        return;
      }
      const scale = this.peak / FULL_SCALE_16;
      for (let index = 0; index < length; index += 1) {
        into[0][offset + done + index] = left[first + index]! * scale;
        into[1][offset + done + index] = right[first + index]! * scale;
      }
      done += length;
    }
  }
}

/** Samples in 16 bits, of the peak that {@link RecordSamples} is told. */
export function to16Bit(samples: Float32Array, peak: number): Int16Array<ArrayBuffer> {
  // By index: `Int16Array.from` takes ten times as long, and frames would wait for it.
  const rounded = new Int16Array(samples.length);
  for (let at = 0; at < samples.length; at += 1)
    rounded[at] = Math.round((samples[at]! / peak) * FULL_SCALE_16);
  return rounded;
}

/** Highest of the samples by amount, 1 at least, so that a record within full scale keeps its own steps. */
export function peakOf(channels: readonly Float32Array[]): number {
  let peak = 1;
  for (const channel of channels)
    for (let at = 0; at < channel.length; at += 1) peak = Math.max(peak, Math.abs(channel[at]!));
  return peak;
}
