import { KernelWriter } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";

/** Shape of a convolution that keeps channels apart; numbers of floats unless said otherwise. */
export interface DepthwiseShape {
  /** A multiple of 4. */
  channels: number;
  timeTaps: number;
  bandTaps: number;
  /** From one tap in time to the next. */
  timeStep: number;
  /** From one tap over the bands to the next. */
  bandStep: number;
}

/**
 * One row of out = max(0, bias + sum over the taps of w x), each channel by itself, channels innermost
 * ("depthwise" of F. Chollet, "Xception", CVPR 2017). The distances of the taps are written into the code, so
 * that each tap is one load.
 *
 * Parameters: x (the first tap of the first place), w (taps by time, then band, channels innermost), bias, out,
 * places in the row (at least 1).
 */
export function depthwiseKernel(name: string, shape: DepthwiseShape): KernelFunction {
  const { channels, timeTaps, bandTaps, timeStep, bandStep } = shape;
  const writer = new KernelWriter(name, 5);
  const [x, w, bias, out, places] = [0, 1, 2, 3, 4] as const;
  const weights = Array.from({ length: timeTaps * bandTaps }, () => writer.vector());
  const [start, sum] = [writer.vector(), writer.vector()];
  const [xAt, outAt, turns, groups] = [writer.whole(), writer.whole(), writer.whole(), writer.whole()];
  writer.constant(channels / 4).set(groups);
  writer.countDown(groups, () => {
    weights.forEach((weight, tap) => {
      writer.load(w, 4 * channels * tap).set(weight);
    });
    writer.load(bias, 0).set(start);
    writer.copy(xAt, x).copy(outAt, out).copy(turns, places);
    writer.countDown(turns, () => {
      writer.copy(sum, start);
      weights.forEach((weight, tap) => {
        const offset = timeStep * Math.floor(tap / bandTaps) + bandStep * (tap % bandTaps);
        writer
          .load(xAt, 4 * offset)
          .get(weight)
          .multiply()
          .get(sum)
          .add()
          .set(sum);
      });
      writer.get(sum).zeros().larger().set(sum).store(outAt, 0, sum);
      writer.step(xAt, 4 * channels).step(outAt, 4 * channels);
    });
    writer.step(x, 16).step(w, 16).step(bias, 16).step(out, 16);
  });
  return writer.function();
}
