import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { CONTEXT_DILATIONS, SEMITONES } from "../layout";
import type { Product, RowBlock } from "../simd/Product";
import { DelayLine } from "./DelayLine";
import { type NetworkParts, pointwise } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TemporalResidual } from "./TemporalResidual";

/** Puts semitone-major order in place of the channel-major order that dense layers were trained with. */
export function semitoneMajor(channels: number): (term: number) => number {
  return (term) => (term % channels) * SEMITONES + Math.floor(term / channels);
}

/** A side path that sees all semitones at once and a second and a half of time, added to every semitone. */
export class GlobalContext implements RowSink {
  private readonly parts: NetworkParts;
  private readonly next: RowSink;
  private readonly narrow: Product;
  private readonly dense: Product;
  private readonly spread: Product;
  private readonly path: RowSink;
  private readonly waiting: DelayLine;
  private readonly narrowed: Address;
  private readonly hidden: Address;
  private readonly added: Address;

  constructor(parts: NetworkParts, next: RowSink) {
    const { memory, mostRows } = parts;
    this.parts = parts;
    this.next = next;
    this.narrow = pointwise(parts, "global.in");
    this.dense = pointwise(parts, "global.dense", semitoneMajor(this.narrow.columns));
    this.spread = pointwise(parts, "global.out");
    let path: RowSink = {
      push: (block, rows) => this.join(block, rows),
      finish: () => {
        this.waiting.reset();
        this.next.finish();
      },
    };
    for (let i = CONTEXT_DILATIONS.length - 1; i >= 0; i--) {
      path = new TemporalResidual(parts, `global.time${i}`, CONTEXT_DILATIONS[i]!, path);
    }
    this.path = path;
    const delay = 2 * CONTEXT_DILATIONS.reduce((sum, dilation) => sum + dilation, 0);
    this.waiting = new DelayLine(memory, SEMITONES * this.narrow.terms, delay, mostRows);
    this.narrowed = memory.take(mostRows * SEMITONES * this.narrow.width);
    this.hidden = memory.take(mostRows * this.dense.width);
    this.added = memory.take(mostRows * this.spread.width);
  }

  push(block: RowBlock, rows: number): void {
    const { narrow, dense } = this;
    for (let row = 0; row < rows; row++) {
      narrow.run(
        { address: block.address + 4 * row * block.step, step: narrow.terms },
        { address: this.narrowed + 4 * row * dense.terms, step: narrow.width },
        SEMITONES,
      );
    }
    const hidden = { address: this.hidden, step: dense.width };
    dense.run({ address: this.narrowed, step: dense.terms }, hidden, rows, { rectify: true });
    this.waiting.push(block, rows);
    this.path.push(hidden, rows);
  }

  finish(): void {
    this.path.finish();
  }

  private join(block: RowBlock, rows: number): void {
    const { spread } = this;
    const { width } = spread;
    spread.run(block, { address: this.added, step: width }, rows);
    const { head } = this.waiting;
    const { add } = this.parts.kernels;
    for (let row = 0; row < rows; row++) {
      add(this.added + 4 * row * width, head.address + 4 * row * head.step, width / 4, SEMITONES);
    }
    this.next.push(head, rows);
    this.waiting.drop(rows);
  }
}
