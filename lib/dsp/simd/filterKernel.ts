import { KernelWriter, type Local } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/** A filter's taps come in runs of so many. */
export const FILTER_RUN = 16;

/**
 * out = sum of x taps, for many places: the first sample of each lies `xStep` bytes after that of the one before.
 * Parameters: x, xStep, taps, runs of {@link FILTER_RUN} taps, out, outStep, places (each count at least 1).
 */
export function filterKernel(): KernelFunction {
  const writer = new KernelWriter("filter", 7);
  const [x, xStep, taps, runs, out, outStep, places] = [0, 1, 2, 3, 4, 5, 6] as const;
  const sums: Local[] = Array.from({ length: FILTER_RUN / 4 }, () => writer.vector());
  const [xAt, tapAt, turns] = [writer.whole(), writer.whole(), writer.whole()];
  writer.countDown(places, () => {
    writer.copy(xAt, x).copy(tapAt, taps).copy(turns, runs);
    for (const sum of sums) writer.zeros().set(sum);
    writer.countDown(turns, () => {
      sums.forEach((sum, part) => {
        writer
          .load(xAt, 16 * part)
          .load(tapAt, 16 * part)
          .multiply()
          .get(sum)
          .add()
          .set(sum);
      });
      writer.step(xAt, 4 * FILTER_RUN).step(tapAt, 4 * FILTER_RUN);
    });
    const [a, b, c, d] = sums as [Local, Local, Local, Local];
    writer.added(a, a, b).added(c, c, d).added(a, a, c);
    writer.picked(b, a, a, [2, 3, 2, 3]).added(a, a, b).picked(b, a, a, [1, 1, 1, 1]).added(a, a, b);
    writer.storeFirst(out, 0, a);
    writer.sum(x, x, xStep).sum(out, out, outStep);
  });
  return writer.function();
}
