import type { Address } from "@/lib/dsp/simd/KernelMemory";
import type { DepthwiseCall } from "../simd/networkKernels";
import { Product, type RowBlock } from "../simd/Product";
import type { NetworkParts } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TimeWindow } from "./TimeWindow";

export const PITCH_CLASSES = 12;

/** A convolution around the circle of pitch classes, or over one only: weights (columns, channels, 12 or 1). */
export function circularProduct({ memory, kernels, weights }: NetworkParts, name: string): Product {
  const { shape, data } = weights.get(`${name}.weight`, 3);
  const [columns, channels, classes] = shape as [number, number, number];
  const bias = weights.get(`${name}.bias`, 1).data;
  return new Product(
    memory,
    kernels,
    { terms: classes * channels, columns },
    (term, column) => {
      const [steps, channel] = [Math.floor(term / channels), term % channels];
      return data[(column * channels + channel) * classes + steps]!;
    },
    bias,
  );
}

/** Repeats the first 11 of 12 pitch classes after the last, so that the circle can be read from any of them on. */
export function wrapRow(floats: Float32Array, address: Address, channels: number): void {
  const start = address / 4;
  floats.copyWithin(start + PITCH_CLASSES * channels, start, start + (PITCH_CLASSES - 1) * channels);
}

/** x + max(0, mix(depthwise over time of x)), where the mixing goes round the pitch classes or stays in each. */
export class ChordBlock implements RowSink {
  private readonly parts: NetworkParts;
  private readonly next: RowSink;
  private readonly circular: boolean;
  private readonly mix: Product;
  private readonly depthwise: DepthwiseCall;
  private readonly taps: Address;
  private readonly bias: Address;
  private readonly window: TimeWindow;
  private readonly filtered: Address;
  private readonly out: Address;
  private readonly channels: number;

  constructor(
    parts: NetworkParts,
    name: string,
    { dilation, circular }: { dilation: number; circular: boolean },
    next: RowSink,
  ) {
    const { memory, kernels, weights, mostRows } = parts;
    this.parts = parts;
    this.next = next;
    this.circular = circular;
    this.mix = circularProduct(parts, `${name}.mix`);
    const { shape, data } = weights.get(`${name}.time.weight`, 2);
    const [channels, timeTaps] = shape as [number, number];
    this.channels = channels;
    const taps = new Float32Array(data.length);
    for (let c = 0; c < channels; c++) {
      for (let tap = 0; tap < timeTaps; tap++) taps[tap * channels + c] = data[c * timeTaps + tap]!;
    }
    this.taps = memory.keep(taps);
    this.bias = memory.keep(weights.get(`${name}.time.bias`, 1).data);
    const rowFloats = PITCH_CLASSES * channels;
    this.window = new TimeWindow(memory, rowFloats, ((timeTaps - 1) / 2) * dilation, mostRows);
    this.depthwise = kernels.depthwise({
      channels,
      timeTaps,
      bandTaps: 1,
      timeStep: dilation * rowFloats,
      bandStep: 0,
    });
    this.filtered = memory.take((2 * PITCH_CLASSES - 1) * channels);
    this.out = memory.take(mostRows * rowFloats);
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
    const { channels } = this;
    const { floats } = this.parts.memory;
    for (let row = 0; row < ready; row++) {
      const x = first.address + 4 * row * first.step;
      this.depthwise(x, this.taps, this.bias, this.filtered, PITCH_CLASSES);
      if (this.circular) wrapRow(floats, this.filtered, channels);
      const out = this.out + 4 * row * first.step;
      this.mix.run(
        { address: this.filtered, step: channels },
        { address: out, step: channels },
        PITCH_CLASSES,
        {
          rectify: true,
        },
      );
      this.parts.kernels.add(centre.address + 4 * row * first.step, out, first.step / 4, 1);
    }
    this.next.push({ address: this.out, step: first.step }, ready);
  }
}
