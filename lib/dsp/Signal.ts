import type { Hertz } from "@/lib/units/quantities";
import type { ReadableSignal } from "./ReadableSignal";

const PIECE_SAMPLES = 1 << 16;

/** Mono samples that can be added to without being copied: they lie in pieces. Before and after them is silence. */
export class Signal implements ReadableSignal {
  readonly sampleRateHz: Hertz;
  /** Of {@link PIECE_SAMPLES} each; the last is not full. */
  readonly pieces: readonly Float32Array<ArrayBuffer>[];
  private readonly growing: Float32Array<ArrayBuffer>[] = [];
  private count = 0;

  constructor(sampleRateHz: Hertz) {
    this.sampleRateHz = sampleRateHz;
    this.pieces = this.growing;
  }

  static of(samples: Float32Array, sampleRateHz: Hertz): Signal {
    const signal = new Signal(sampleRateHz);
    signal.append(samples);
    return signal;
  }

  /** A signal from the pieces of another, of which the first `length` samples count. */
  static ofPieces(pieces: readonly Float32Array<ArrayBuffer>[], length: number, sampleRateHz: Hertz): Signal {
    const signal = new Signal(sampleRateHz);
    signal.growing.push(...pieces);
    signal.count = length;
    return signal;
  }

  /** Samples so far. */
  get length(): number {
    return this.count;
  }

  append(samples: Float32Array): void {
    for (let done = 0; done < samples.length; ) {
      const place = this.count % PIECE_SAMPLES;
      if (place === 0) this.growing.push(new Float32Array(PIECE_SAMPLES));
      const length = Math.min(samples.length - done, PIECE_SAMPLES - place);
      this.growing.at(-1)!.set(samples.subarray(done, done + length), place);
      this.count += length;
      done += length;
    }
  }

  /** Multiplies every sample so far. */
  scale(factor: number): void {
    for (const piece of this.pieces) {
      for (let i = 0; i < piece.length; i++) piece[i]! *= factor;
    }
  }

  /** Gives up all samples. */
  clear(): void {
    this.growing.length = 0;
    this.count = 0;
  }

  /** Fills `into` with the samples from `start` on, which may be negative. */
  read(start: number, into: Float32Array): Float32Array {
    into.fill(0);
    const end = Math.min(this.count, start + into.length);
    for (let from = Math.max(0, start); from < end; ) {
      const place = from % PIECE_SAMPLES;
      const length = Math.min(end - from, PIECE_SAMPLES - place);
      const piece = this.pieces[(from - place) / PIECE_SAMPLES]!;
      into.set(piece.subarray(place, place + length), from - start);
      from += length;
    }
    return into;
  }
}
