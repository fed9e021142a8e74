import type { Hertz } from "@/lib/units/quantities";
import type { ReadableSignal } from "./ReadableSignal";

const PIECE_SAMPLES = 1 << 14;
const MOST = 0x7fff;

/** Samples as whole numbers of steps. */
export interface PackedPiece {
  samples: Int16Array<ArrayBuffer>;
  step: number;
}

/**
 * A signal in half the room that {@link Signal} takes: 16 bits a sample, as fine as the loudest sample of each 16,384
 * asks for (block floating point). What is lost lies 98 dB below that one.
 */
export class PackedSignal implements ReadableSignal {
  readonly sampleRateHz: Hertz;
  /** Of {@link PIECE_SAMPLES} each, but the last. */
  readonly pieces: readonly PackedPiece[];
  private readonly growing: PackedPiece[];
  /** What has been appended and does not fill a piece yet. */
  private open = new Float32Array(PIECE_SAMPLES);
  private opened = 0;

  /** @param pieces those of another */
  constructor(sampleRateHz: Hertz, pieces: readonly PackedPiece[] = []) {
    this.sampleRateHz = sampleRateHz;
    this.growing = [...pieces];
    this.pieces = this.growing;
  }

  /** Samples that can be read: all whole pieces and, once closed, the rest. */
  get length(): number {
    return Math.max(0, this.pieces.length - 1) * PIECE_SAMPLES + (this.pieces.at(-1)?.samples.length ?? 0);
  }

  append(samples: Float32Array): void {
    for (let done = 0; done < samples.length; ) {
      const count = Math.min(samples.length - done, PIECE_SAMPLES - this.opened);
      this.open.set(samples.subarray(done, done + count), this.opened);
      this.opened += count;
      done += count;
      if (this.opened === PIECE_SAMPLES) this.pack();
    }
  }

  /** Nothing more is appended. */
  close(): void {
    if (this.opened > 0) this.pack();
    this.open = new Float32Array(0);
  }

  /** Multiplies every sample that can be read. */
  scale(factor: number): void {
    for (const piece of this.growing) piece.step *= factor;
  }

  /** Gives up all samples. */
  clear(): void {
    this.growing.length = 0;
    this.opened = 0;
  }

  read(start: number, into: Float32Array): Float32Array {
    into.fill(0);
    const end = Math.min(this.length, start + into.length);
    for (let from = Math.max(0, start); from < end; ) {
      const place = from % PIECE_SAMPLES;
      const { samples, step } = this.pieces[(from - place) / PIECE_SAMPLES]!;
      const count = Math.min(end - from, PIECE_SAMPLES - place);
      for (let i = 0; i < count; i++) into[from - start + i] = samples[place + i]! * step;
      from += count;
    }
    return into;
  }

  private pack(): void {
    const open = this.open.subarray(0, this.opened);
    let peak = 0;
    for (let i = 0; i < open.length; i++) peak = Math.max(peak, Math.abs(open[i]!));
    const step = peak / MOST;
    const samples = new Int16Array(open.length);
    if (step > 0) for (let i = 0; i < open.length; i++) samples[i] = Math.round(open[i]! / step);
    this.growing.push({ samples, step });
    this.opened = 0;
  }
}
