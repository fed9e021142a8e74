import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { Product, type RowBlock } from "../simd/Product";
import type { NetworkParts } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TimeWindow } from "./TimeWindow";

/**
 * x + max(0, convolution of x over time), dilated: the temporal blocks of S. Bai, J. Z. Kolter and V. Koltun, "An
 * empirical evaluation of generic convolutional and recurrent networks for sequence modeling", 2018, and of
 * beat trackers after M. Davies and S. Boeck, "Temporal convolutional networks for musical audio beat
 * tracking", EUSIPCO 2019; here they look ahead as far as back.
 */
export class TemporalResidual implements RowSink {
  private readonly parts: NetworkParts;
  private readonly dilation: number;
  private readonly next: RowSink;
  private readonly taps: Product[];
  private readonly window: TimeWindow;
  private readonly out: Address;

  constructor(parts: NetworkParts, name: string, dilation: number, next: RowSink) {
    const { memory, kernels, weights, mostRows } = parts;
    this.parts = parts;
    this.dilation = dilation;
    this.next = next;
    const { shape, data } = weights.get(`${name}.weight`, 3);
    const [columns, terms, count] = shape as [number, number, number];
    const bias = weights.get(`${name}.bias`, 1).data;
    this.taps = Array.from({ length: count }, (_, tap) => {
      const at = (term: number, column: number): number => data[(column * terms + term) * count + tap]!;
      return new Product(memory, kernels, { terms, columns }, at, tap === 0 ? bias : null);
    });
    this.window = new TimeWindow(memory, terms, ((count - 1) / 2) * dilation, mostRows);
    this.out = memory.take(mostRows * columns);
  }

  push(block: RowBlock, rows: number): void {
    const { floats } = this.parts.memory;
    const { address, step } = this.window.incoming;
    for (let row = 0; row < rows; row++) {
      const from = block.address / 4 + row * block.step;
      floats.copyWithin(address / 4 + row * step, from, from + step);
    }
    this.window.advance(rows, (ready) => this.answer(ready));
  }

  finish(): void {
    this.window.finish((ready) => this.answer(ready));
    this.window.reset();
    this.next.finish();
  }

  private answer(ready: number): void {
    const { first, centre } = this.window;
    const out = { address: this.out, step: first.step };
    const last = this.taps.length - 1;
    this.taps.forEach((product, tap) => {
      const x = { address: first.address + 4 * tap * this.dilation * first.step, step: first.step };
      product.run(x, out, ready, { addToResult: tap > 0, rectify: tap === last });
    });
    this.parts.kernels.add(centre.address, out.address, (ready * first.step) / 4, 1);
    this.next.push(out, ready);
  }
}
