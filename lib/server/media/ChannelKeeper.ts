import type { SampleReceiver } from "./SampleReceiver";

const FIRST_SAMPLES = 1 << 16;

/** Keeps all samples, one array for each channel. */
export class ChannelKeeper implements SampleReceiver {
  private arrays: Float32Array<ArrayBuffer>[] = [];
  private length = 0;
  private readonly expected: number | null;

  /** @param expected samples of each channel, where that is known; may be wrong */
  constructor(expected: number | null = null) {
    this.expected = expected;
  }

  begin(channelCount: number): void {
    const room = Math.max(1, this.expected ?? FIRST_SAMPLES);
    this.arrays = Array.from({ length: channelCount }, () => new Float32Array(room));
  }

  take(channels: readonly Float32Array[], count: number): void {
    const needed = this.length + count;
    if (needed > this.arrays[0]!.length) {
      const room = Math.max(needed, Math.ceil(this.arrays[0]!.length * 1.5));
      this.arrays = this.arrays.map((array) => {
        const larger = new Float32Array(room);
        larger.set(array.subarray(0, this.length));
        return larger;
      });
    }
    this.arrays.forEach((array, channel) => {
      array.set(channels[channel]!.subarray(0, count), this.length);
    });
    this.length = needed;
  }

  /** The channels, each as long as what was taken. The keeper must not be used after. */
  finish(): Float32Array<ArrayBuffer>[] {
    return this.arrays.map((array) => array.subarray(0, this.length));
  }
}
