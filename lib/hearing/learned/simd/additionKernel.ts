import { KernelWriter } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";

/**
 * out = out + factor x, the same x for many rows that lie one after another. Parameters: x, out, vectors in a row,
 * rows (each count at least 1).
 */
export function additionKernel(name: string, factor: number): KernelFunction {
  const writer = new KernelWriter(name, 4);
  const [x, out, vectors, rows] = [0, 1, 2, 3] as const;
  const sum = writer.vector();
  const [xAt, turns] = [writer.whole(), writer.whole()];
  writer.countDown(rows, () => {
    writer.copy(xAt, x).copy(turns, vectors);
    writer.countDown(turns, () => {
      writer.load(xAt, 0);
      if (factor !== 1) writer.fourTimes(factor).multiply();
      writer.load(out, 0).add().set(sum).store(out, 0, sum);
      writer.step(xAt, 16).step(out, 16);
    });
  });
  return writer.function();
}
