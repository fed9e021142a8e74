import { KernelWriter, type Local } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";

/** Add to what stands in the result instead of writing over it. */
export const ADD_TO_RESULT = 1;
/** Keep nothing below 0 in the end. */
export const RECTIFY = 2;

/** Rows worked on at once: with 8 columns, their sums fill half of the 16 vector registers of x86. */
const TILE_ROWS = 4;
/** Terms of a sum written out in a row. */
const UNROLLED = 4;

/**
 * out = x w + bias for a panel of columns: rows of x lie `xStep` bytes apart, of `out` `outStep`; `w` holds the
 * panel term by term. Steps are free, so that overlapping rows make a convolution. Register tiles after
 * K. Goto and R. van de Geijn, "Anatomy of high-performance matrix multiplication", ACM TOMS 34 (2008).
 *
 * Parameters: x, xStep, w, bias, out, outStep, rows, terms / 4 (at least 1), flags.
 * @param columns 4 or 8
 */
export function productKernel(name: string, columns: 4 | 8): KernelFunction {
  const writer = new KernelWriter(name, 9);
  const [x, xStep, w, bias, out, outStep, rows, quarterTerms, flags] = [0, 1, 2, 3, 4, 5, 6, 7, 8] as const;
  const width = columns / 4;
  const vectors = (count: number): Local[] => Array.from({ length: count }, () => writer.vector());
  const wholes = (count: number): Local[] => Array.from({ length: count }, () => writer.whole());
  const biases = vectors(width);
  const weights = vectors(width);
  const factor = writer.vector();
  const sums = vectors(TILE_ROWS * width);
  const xAt = wholes(TILE_ROWS);
  const outAt = wholes(TILE_ROWS);
  const [wAt, turns] = [writer.whole(), writer.whole()];

  const tile = (height: number): void => {
    const each = (visit: (sum: Local, row: number, part: number) => void): void => {
      for (let row = 0; row < height; row++) {
        for (let part = 0; part < width; part++) visit(sums[row * width + part]!, row, part);
      }
    };
    writer.copy(xAt[0]!, x).copy(outAt[0]!, out);
    for (let row = 1; row < height; row++) {
      writer.sum(xAt[row]!, xAt[row - 1]!, xStep).sum(outAt[row]!, outAt[row - 1]!, outStep);
    }
    each((sum, _, part) => writer.copy(sum, biases[part]!));
    writer.whereSet(flags, ADD_TO_RESULT, () => {
      each((sum, row, part) =>
        writer
          .load(outAt[row]!, 16 * part)
          .get(sum)
          .add()
          .set(sum),
      );
    });
    writer.copy(wAt, w).copy(turns, quarterTerms);
    writer.countDown(turns, () => {
      for (let term = 0; term < UNROLLED; term++) {
        weights.forEach((weight, part) => {
          writer.load(wAt, 16 * (term * width + part)).set(weight);
        });
        for (let row = 0; row < height; row++) {
          writer.loadSplat(xAt[row]!, 4 * term).set(factor);
          for (let part = 0; part < width; part++) {
            const sum = sums[row * width + part]!;
            writer.get(factor).get(weights[part]!).multiply().get(sum).add().set(sum);
          }
        }
      }
      for (let row = 0; row < height; row++) writer.step(xAt[row]!, 4 * UNROLLED);
      writer.step(wAt, 16 * width * UNROLLED);
    });
    writer.whereSet(flags, RECTIFY, () => {
      each((sum) => writer.get(sum).zeros().larger().set(sum));
    });
    each((sum, row, part) => writer.store(outAt[row]!, 16 * part, sum));
    writer
      .sum(x, xAt0End(height), xStep)
      .sum(out, outAt[height - 1]!, outStep)
      .step(rows, -height);
  };
  // The pointers into x have moved along their rows; the last row's start is found again by going back.
  const rowStart = writer.whole();
  const xAt0End = (height: number): Local => {
    writer.copy(rowStart, x);
    for (let row = 1; row < height; row++) writer.sum(rowStart, rowStart, xStep);
    return rowStart;
  };

  biases.forEach((vector, part) => {
    writer.load(bias, 16 * part).set(vector);
  });
  writer.whileAtLeast(rows, TILE_ROWS, () => tile(TILE_ROWS));
  writer.whileAtLeast(rows, 1, () => tile(1));
  return writer.function();
}
