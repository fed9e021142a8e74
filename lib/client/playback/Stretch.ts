import type { Hertz } from "@/lib/units/quantities";
import type { Stereo } from "./RecordSamples";
import type { StretchWasm } from "./stretchWasm";

/**
 * Each block that is turned into a spectrum, and how far the next lies on: shorter than the library's own 120 and 30 ms, since
 * notes then begin up to 2 ms nearer to their time (measured at half speed; tests/unit/client/playback/stretchQuality.test.ts).
 */
const BLOCK_SEC = 0.1;
const INTERVAL_SEC = 0.025;
/** Most frames that are taken in or given out at once. */
export const ROOM_FRAMES = 32_768;

/** Stretches two channels in time and keeps their pitch (Signalsmith Stretch). */
export class Stretch {
  /** Frames by which the middle of what is being worked on lies behind the last that was put in. */
  readonly inputLatency: number;
  /** Frames after which it comes out. */
  readonly outputLatency: number;
  readonly blockFrames: number;
  readonly intervalFrames: number;
  private readonly pointer: number;

  constructor(
    private readonly wasm: StretchWasm,
    rateHz: Hertz,
  ) {
    // Spread over time, so that no moment takes the whole work of a block.
    wasm._configure(2, Math.round(BLOCK_SEC * rateHz), Math.round(INTERVAL_SEC * rateHz), true);
    this.inputLatency = wasm._inputLatency();
    this.outputLatency = wasm._outputLatency();
    this.blockFrames = wasm._blockSamples();
    this.intervalFrames = wasm._intervalSamples();
    this.pointer = wasm._setBuffers(2, ROOM_FRAMES);
  }

  /** Forgets all that went in, and takes what lies before the next as known. */
  seek(before: Stereo, count: number, speed: number): void {
    this.wasm._reset();
    this.put(before, count);
    this.wasm._seek(count, speed);
  }

  /** Takes frames in and gives frames out: their ratio is the speed. */
  process(from: Stereo, inCount: number, to: Stereo, offset: number, outCount: number): void {
    this.put(from, inCount);
    this.wasm._process(inCount, outCount);
    const heap = this.heap();
    for (let channel = 0; channel < 2; channel += 1) {
      const first = this.pointer / 4 + (2 + channel) * ROOM_FRAMES;
      to[channel]!.set(heap.subarray(first, first + outCount), offset);
    }
  }

  private put(from: Stereo, count: number): void {
    const heap = this.heap();
    for (let channel = 0; channel < 2; channel += 1)
      heap.set(from[channel]!.subarray(0, count), this.pointer / 4 + channel * ROOM_FRAMES);
  }

  /** Its memory may have been moved by any call. */
  private heap(): Float32Array {
    return new Float32Array(this.wasm.HEAP8.buffer);
  }
}
