import type { CapturedChunk } from "./takeMessages";

/** Portions are handed over by so many frames: some 85 ms at 48 kHz. */
export const CHUNK_FRAMES = 4_096;
/** The audio thread's portion (Web Audio API, "Rendering an audio graph"). */
const QUANTUM_FRAMES = 128;

/**
 * Gathers the audio thread's portions into chunks. Always two channels: a microphone says only once it runs whether it has
 * one or two, and one is taken for both.
 */
export class ChunkGatherer {
  private left = new Float32Array(CHUNK_FRAMES);
  private right = new Float32Array(CHUNK_FRAMES);
  private atFrame = 0;
  private filled = 0;

  constructor(private readonly give: (chunk: CapturedChunk) => void) {}

  /** @param input channels of one portion; none where nothing is connected, which is silence */
  take(atFrame: number, input: readonly Float32Array[]): void {
    const [left, right = left] = input;
    const count = left?.length ?? QUANTUM_FRAMES;
    // The thread may have left portions out, as it does where it is suspended.
    if (this.filled > 0 && atFrame !== this.atFrame + this.filled) this.handOver();
    if (this.filled === 0) this.atFrame = atFrame;
    if (this.filled + count > CHUNK_FRAMES) {
      this.handOver();
      this.atFrame = atFrame;
    }
    if (left && right) {
      this.left.set(left, this.filled);
      this.right.set(right, this.filled);
    }
    this.filled += count;
    if (this.filled === CHUNK_FRAMES) this.handOver();
  }

  private handOver(): void {
    const { atFrame, filled } = this;
    const channels = [this.left, this.right].map((channel) => channel.slice(0, filled));
    this.left = new Float32Array(CHUNK_FRAMES);
    this.right = new Float32Array(CHUNK_FRAMES);
    this.filled = 0;
    this.give({ atFrame, channels });
  }
}
