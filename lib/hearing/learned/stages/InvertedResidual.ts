import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { SEMITONES } from "../layout";
import type { DepthwiseCall } from "../simd/networkKernels";
import type { RowBlock, RowProduct } from "../simd/Product";
import { DelayLine } from "./DelayLine";
import { type NetworkParts, trunkPointwise } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TimeWindow } from "./TimeWindow";

export interface BlockShape {
  /** Dilation over time and over semitones. */
  timeDilation: number;
  semitoneDilation: number;
  /** Whether what the block gives is kept from falling below 0. */
  rectify: boolean;
}

/**
 * x + project(depthwise(expand(x))): the inverted residual block of M. Sandler et al., "MobileNetV2", CVPR 2018,
 * over rows of 96 semitones with the channels innermost.
 */
export class InvertedResidual implements RowSink {
  private readonly shape: BlockShape;
  private readonly next: RowSink;
  private readonly expand: RowProduct;
  private readonly project: RowProduct;
  private readonly depthwise: DepthwiseCall;
  private readonly taps: Address;
  private readonly bias: Address;
  /** Expanded rows, with empty semitones at both ends. */
  private readonly window: TimeWindow;
  private readonly skipped: DelayLine;
  private readonly filtered: Address;
  private readonly inner: number;

  constructor(parts: NetworkParts, name: string, shape: BlockShape, next: RowSink) {
    const { memory, kernels, weights, mostRows } = parts;
    this.shape = shape;
    this.next = next;
    this.expand = trunkPointwise(parts, `${name}.expand`, SEMITONES);
    this.project = trunkPointwise(parts, `${name}.project`, SEMITONES);
    const { shape: extents, data } = weights.get(`${name}.depth.weight`, 3);
    const [inner, timeTaps, bandTaps] = extents as [number, number, number];
    this.inner = inner;
    const taps = new Float32Array(data.length);
    for (let c = 0; c < inner; c++) {
      for (let tap = 0; tap < timeTaps * bandTaps; tap++) {
        taps[tap * inner + c] = data[c * timeTaps * bandTaps + tap]!;
      }
    }
    this.taps = memory.keep(taps);
    this.bias = memory.keep(weights.get(`${name}.depth.bias`, 1).data);
    const margin = ((bandTaps - 1) / 2) * shape.semitoneDilation;
    const reach = ((timeTaps - 1) / 2) * shape.timeDilation;
    const rowFloats = (SEMITONES + 2 * margin) * inner;
    this.window = new TimeWindow(memory, rowFloats, reach, mostRows);
    this.skipped = new DelayLine(memory, SEMITONES * this.expand.terms, reach, mostRows);
    this.filtered = memory.take(SEMITONES * inner);
    this.depthwise = kernels.depthwise({
      channels: inner,
      timeTaps,
      bandTaps,
      timeStep: shape.timeDilation * rowFloats,
      bandStep: shape.semitoneDilation * inner,
    });
    this.marginFloats = margin * inner;
  }

  private readonly marginFloats: number;

  push(block: RowBlock, rows: number): void {
    const channels = this.expand.terms;
    const { address, step } = this.window.incoming;
    for (let row = 0; row < rows; row++) {
      this.expand.run(
        { address: block.address + 4 * row * block.step, step: channels },
        { address: address + 4 * (row * step + this.marginFloats), step: this.inner },
        SEMITONES,
        { rectify: true },
      );
    }
    this.skipped.push(block, rows);
    this.window.advance(rows, (ready) => this.answer(ready));
  }

  finish(): void {
    this.window.finish((ready) => this.answer(ready));
    this.window.reset();
    this.skipped.reset();
    this.next.finish();
  }

  private answer(ready: number): void {
    const { first } = this.window;
    const { head } = this.skipped;
    for (let row = 0; row < ready; row++) {
      this.depthwise(first.address + 4 * row * first.step, this.taps, this.bias, this.filtered, SEMITONES);
      this.project.run(
        { address: this.filtered, step: this.inner },
        { address: head.address + 4 * row * head.step, step: this.project.width },
        SEMITONES,
        { addToResult: true, rectify: this.shape.rectify },
      );
    }
    this.next.push(head, ready);
    this.skipped.drop(ready);
  }
}
