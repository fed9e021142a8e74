import { KernelWriter, type Local } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/**
 * Sums of the bins of two spectra with the same real weights, and of each pair of sums M and S the magnitudes and the
 * balance 2 Re(M conj S) / (|M|^2 + |S|^2 + floor), from -1 to 1. Parameters: spectrum of M, spectrum of S, table and
 * weights as the kernel for one spectrum takes them (see logFrequencyKernel), where |M|, |S| and the balance go, sums.
 * @param imBytes from the real to the imaginary parts
 */
export function stereoFrequencyKernel(imBytes: number, floor: number): KernelFunction {
  const writer = new KernelWriter("stereoFrequency", 8);
  const [mid, side, table, weights, midOut, sideOut, balanceOut, sums] = [0, 1, 2, 3, 4, 5, 6, 7] as const;
  const [midRe, midIm, sideRe, sideIm] = [writer.vector(), writer.vector(), writer.vector(), writer.vector()];
  const [weight, spare, power] = [writer.vector(), writer.vector(), writer.vector()];
  const [midAt, sideAt, offset, turns] = [writer.whole(), writer.whole(), writer.whole(), writer.whole()];

  const accumulate = (sum: Local, at: Local, bytes: number): void => {
    writer.load(at, bytes).get(weight).multiply().get(sum).add().set(sum);
  };
  /** re = half sums of re at the even places, of im at the odd ones. */
  const halved = (re: Local, im: Local): void => {
    writer.picked(spare, re, im, [0, 4, 1, 5]).picked(re, re, im, [2, 6, 3, 7]).added(re, re, spare);
  };

  writer.countDown(sums, () => {
    writer.loadWhole(table, 0).set(offset).sum(midAt, mid, offset).sum(sideAt, side, offset);
    writer.loadWhole(table, 4).set(turns);
    for (const sum of [midRe, midIm, sideRe, sideIm]) writer.zeros().set(sum);
    writer.countDown(turns, () => {
      writer.load(weights, 0).set(weight);
      accumulate(midRe, midAt, 0);
      accumulate(midIm, midAt, imBytes);
      accumulate(sideRe, sideAt, 0);
      accumulate(sideIm, sideAt, imBytes);
      writer.step(midAt, 16).step(sideAt, 16).step(weights, 16);
    });
    halved(midRe, midIm);
    halved(sideRe, sideIm);
    // Real and imaginary part of M, then of S.
    const both = midRe;
    writer.picked(spare, midRe, sideRe, [2, 3, 6, 7]).picked(both, midRe, sideRe, [0, 1, 4, 5]);
    writer.added(both, both, spare);
    // |M|^2 twice, then |S|^2 twice.
    writer.multiplied(power, both, both).picked(spare, power, power, [1, 0, 3, 2]).added(power, power, spare);
    const size = midIm;
    writer.get(power).squareRoot().set(size).storeFirst(midOut, 0, size);
    writer.picked(size, size, size, [2, 2, 2, 2]).storeFirst(sideOut, 0, size);
    const product = sideRe;
    writer.picked(spare, both, both, [2, 3, 0, 1]).multiplied(product, both, spare);
    writer.picked(spare, product, product, [1, 0, 3, 2]).added(product, product, spare);
    writer.picked(spare, power, power, [2, 3, 0, 1]).added(power, power, spare);
    writer.added(product, product, product).get(product);
    writer.get(power).fourTimes(floor).add().divide().set(product).storeFirst(balanceOut, 0, product);
    writer.step(table, 8).step(midOut, 4).step(sideOut, 4).step(balanceOut, 4);
  });
  return writer.function();
}
