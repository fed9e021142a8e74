import { KernelWriter } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";

/**
 * Lays rows of numbers side by side: out[k][channel] = from[k + starts[channel]]. Parameters: from, out, blocks of four
 * places k.
 * @param starts where each channel's first number stands, a multiple of 4 of them, in floats
 */
export function interleaveKernel(name: string, starts: readonly number[]): KernelFunction {
  const channels = starts.length;
  if (channels % 4 !== 0) throw new RangeError(`${channels} channels do not fit vectors of four.`);
  const writer = new KernelWriter(name, 3);
  const [from, out, blocks] = [0, 1, 2] as const;
  const x = Array.from({ length: 4 }, () => writer.vector());
  const spare = Array.from({ length: 4 }, () => writer.vector());
  writer.countDown(blocks, () => {
    for (let first = 0; first < channels; first += 4) {
      x.forEach((local, i) => {
        writer.load(from, 4 * starts[first + i]!).set(local);
      });
      writer.transposed(x, spare);
      x.forEach((local, k) => {
        writer.store(out, 4 * (channels * k + first), local);
      });
    }
    writer.step(from, 16).step(out, 16 * channels);
  });
  return writer.function();
}
