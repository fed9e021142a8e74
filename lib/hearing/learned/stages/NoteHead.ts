import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { fromLogOdds } from "../../logOdds";
import { OFFSET_REACH, SEMITONES } from "../layout";
import type { Product, RowBlock } from "../simd/Product";
import { type NetworkParts, pointwise } from "./NetworkParts";
import type { RowSink } from "./RowSink";

/** What is said of one frame: the value of the m-th note map of the weights at semitone s is values[s * step + m]. */
export interface NoteFrame {
  index: number;
  /** Probabilities, but the offset, in semitones. Used again for the next frame. */
  values: Float32Array;
  step: number;
}

/** Semitones of the network from `from` up to, not including, `to`. */
export interface SemitoneRange {
  from: number;
  to: number;
}

/** Two layers over each semitone by itself. */
export class NoteHead implements RowSink {
  private readonly parts: NetworkParts;
  private readonly onFrame: (frame: NoteFrame) => void;
  private readonly hidden: Product;
  private readonly maps: Product;
  private readonly hiddenRow: Address;
  private readonly mapRow: Address;
  private readonly values: Float32Array;
  private readonly offsetMap: number;
  private readonly range: SemitoneRange;
  private count = 0;

  /** @param range semitones that are worked out; the values of others stay 0 */
  constructor(
    parts: NetworkParts,
    onFrame: (frame: NoteFrame) => void,
    range: SemitoneRange = { from: 0, to: SEMITONES },
  ) {
    this.range = range;
    this.parts = parts;
    this.onFrame = onFrame;
    this.hidden = pointwise(parts, "note.mix");
    this.maps = pointwise(parts, "note.out");
    this.hiddenRow = parts.memory.take(SEMITONES * this.hidden.width);
    this.mapRow = parts.memory.take(SEMITONES * this.maps.width);
    this.values = new Float32Array(SEMITONES * this.maps.width);
    this.offsetMap = parts.weights.noteMaps.indexOf("offset");
  }

  push(block: RowBlock, rows: number): void {
    const { hidden, maps, values } = this;
    const step = maps.width;
    const { from, to } = this.range;
    for (let row = 0; row < rows; row++) {
      const between = { address: this.hiddenRow, step: hidden.width };
      const first = block.address + 4 * (row * block.step + from * hidden.terms);
      const x = { address: first, step: hidden.terms };
      hidden.run(x, between, to - from, { rectify: true });
      maps.run(between, { address: this.mapRow, step }, to - from);
      const { floats } = this.parts.memory;
      const start = this.mapRow / 4 - from * step;
      for (let i = from * step; i < to * step; i++) {
        const value = floats[start + i]!;
        values[i] = i % step === this.offsetMap ? OFFSET_REACH * Math.tanh(value) : fromLogOdds(value);
      }
      this.onFrame({ index: this.count, values, step });
      this.count += 1;
    }
  }

  finish(): void {
    this.count = 0;
  }
}
