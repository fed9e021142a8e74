import type { CapturedChunk } from "./takeMessages";

/** Full scale in 16 bits. */
const FULL = 32_767;
/** Two channels that differ by less than this, of full scale, are one. */
const SAME = 1 / 2_048;
/** A channel that is so much weaker than the other has nothing plugged in: 54 dB. */
const EMPTY_SHARE = 1 / 512;

/**
 * What was captured so far, in 16 bits: ten minutes of two channels at 48 kHz are 115 MB. By the frames of the audio
 * context; what the thread left out is silence.
 */
export class CapturedSound {
  private readonly chunks: { atFrame: number; left: Int16Array; right: Int16Array }[] = [];
  private leftPeak = 0;
  private rightPeak = 0;
  private mostApart = 0;
  /** Of the loudest sample of the last chunk, full scale 1. */
  lastPeak = 0;

  add({ atFrame, channels: [left, right = left] }: CapturedChunk): void {
    if (!left || !right) return;
    let [leftPeak, rightPeak] = [0, 0];
    for (let i = 0; i < left.length; i++) {
      leftPeak = Math.max(leftPeak, Math.abs(left[i]!));
      rightPeak = Math.max(rightPeak, Math.abs(right[i]!));
      this.mostApart = Math.max(this.mostApart, Math.abs(left[i]! - right[i]!));
    }
    this.leftPeak = Math.max(this.leftPeak, leftPeak);
    this.rightPeak = Math.max(this.rightPeak, rightPeak);
    this.lastPeak = Math.max(leftPeak, rightPeak);
    this.chunks.push({ atFrame, left: in16(left), right: in16(right) });
  }

  /** The first frame that was captured; null before anything was. */
  get startFrame(): number | null {
    return this.chunks[0]?.atFrame ?? null;
  }

  /** The frame after the last. */
  get endFrame(): number {
    const last = this.chunks.at(-1);
    return last ? last.atFrame + last.left.length : 0;
  }

  /** Of the loudest sample so far, full scale 1. */
  get peak(): number {
    return Math.max(this.leftPeak, this.rightPeak);
  }

  /**
   * Frames `fromFrame` to `toFrame`, the last not counted, as one channel where both are the same or one is empty, else as
   * two. What was not captured is silence.
   */
  cut(fromFrame: number, toFrame: number): Float32Array<ArrayBuffer>[] {
    const length = Math.max(0, toFrame - fromFrame);
    const which = this.whichChannels();
    const cut = which.map(() => new Float32Array(length));
    for (const chunk of this.chunks) {
      const from = Math.max(fromFrame, chunk.atFrame);
      const to = Math.min(toFrame, chunk.atFrame + chunk.left.length);
      for (const [index, name] of which.entries())
        for (let frame = from; frame < to; frame++)
          cut[index]![frame - fromFrame] = chunk[name][frame - chunk.atFrame]! / FULL;
    }
    return cut;
  }

  private whichChannels(): ("left" | "right")[] {
    const { leftPeak, rightPeak } = this;
    if (this.mostApart < SAME || rightPeak < leftPeak * EMPTY_SHARE) return ["left"];
    if (leftPeak < rightPeak * EMPTY_SHARE) return ["right"];
    return ["left", "right"];
  }
}

function in16(samples: Float32Array): Int16Array {
  return Int16Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * FULL));
}
