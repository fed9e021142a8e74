import { KernelWriter } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/**
 * Magnitudes of sums of a spectrum's bins with real weights. Parameters: spectrum (real parts), table (for each
 * sum, in whole numbers, the byte offset of its first bin and how many vectors of weights it has, at least 1),
 * weights one after another, out, sums.
 * @param imBytes from the real to the imaginary parts
 */
export function logFrequencyKernel(imBytes: number): KernelFunction {
  const writer = new KernelWriter("logFrequency", 5);
  const [spectrum, table, weights, out, sums] = [0, 1, 2, 3, 4] as const;
  const [re, im, weight] = [writer.vector(), writer.vector(), writer.vector()];
  const [at, offset, turns] = [writer.whole(), writer.whole(), writer.whole()];
  writer.countDown(sums, () => {
    writer.loadWhole(table, 0).set(offset).sum(at, spectrum, offset);
    writer.loadWhole(table, 4).set(turns);
    writer.zeros().set(re).zeros().set(im);
    writer.countDown(turns, () => {
      writer.load(weights, 0).set(weight);
      writer.load(at, 0).get(weight).multiply().get(re).add().set(re);
      writer.load(at, imBytes).get(weight).multiply().get(im).add().set(im);
      writer.step(at, 16).step(weights, 16);
    });
    // Real parts to the even places, imaginary ones to the odd.
    writer.picked(weight, re, im, [0, 4, 1, 5]).picked(re, re, im, [2, 6, 3, 7]).added(re, re, weight);
    writer.picked(im, re, re, [2, 3, 2, 3]).added(re, re, im).multiplied(re, re, re);
    writer.picked(im, re, re, [1, 1, 1, 1]).get(re).get(im).add().squareRoot().set(re);
    writer.storeFirst(out, 0, re);
    writer.step(table, 8).step(out, 4);
  });
  return writer.function();
}
