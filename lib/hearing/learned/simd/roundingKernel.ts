import { KernelWriter } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";

/** Largest whole number that a number is rounded to: of 16 bits, so many that sums of products still fit 32. */
export const MOST_ROUNDED = 0x3fff;
/** No step is finer than what makes this the largest number. */
const LEAST = 1e-20;
/** 1.5 times 2^23: a single float of this size has no places after the point, and its last bits are the number. */
const ROUNDING = 12_582_912;
const ROUNDING_BITS = 0x4b400000;

/**
 * Rounds numbers to whole steps, as fine as the largest of them asks for: x is about step times its whole number.
 * Parameters: x, blocks of eight (at least 1), out (16 bits each), where the step goes.
 */
export function roundingKernel(name: string): KernelFunction {
  const writer = new KernelWriter(name, 4);
  const [x, blocks, out, step] = [0, 1, 2, 3] as const;
  const [most, spare, perStep] = [writer.vector(), writer.vector(), writer.vector()];
  const halves = [writer.vector(), writer.vector()] as const;
  const [at, turns] = [writer.whole(), writer.whole()];

  writer.fourTimes(LEAST).set(most);
  writer.copy(at, x).copy(turns, blocks);
  writer.countDown(turns, () => {
    for (const offset of [0, 16]) writer.load(at, offset).absolute().get(most).larger().set(most);
    writer.step(at, 32);
  });
  for (const places of [
    [2, 3, 0, 1],
    [1, 0, 3, 2],
  ] as const) {
    writer.picked(spare, most, most, places).get(most).get(spare).larger().set(most);
  }
  writer
    .get(most)
    .fourTimes(1 / MOST_ROUNDED)
    .multiply()
    .set(spare)
    .storeFirst(step, 0, spare);
  writer.fourTimes(MOST_ROUNDED).get(most).divide().set(perStep);

  writer.copy(at, x).copy(turns, blocks);
  writer.countDown(turns, () => {
    halves.forEach((half, i) => {
      writer
        .load(at, 16 * i)
        .get(perStep)
        .multiply()
        .fourTimes(ROUNDING)
        .add();
      writer.fourTimesWhole(ROUNDING_BITS).subtractWholes().set(half);
    });
    writer.get(halves[0]).get(halves[1]).narrow().set(spare).store(out, 0, spare);
    writer.step(at, 32).step(out, 16);
  });
  return writer.function();
}
