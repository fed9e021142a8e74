import { KernelWriter, type Local } from "@/lib/dsp/simd/KernelWriter";
import type { KernelFunction } from "@/lib/dsp/simd/wasmModule";
import { ADD_TO_RESULT, RECTIFY } from "./productKernel";

/** Columns of a panel. */
export const ROUNDED_COLUMNS = 8;
/** Rows worked on at once. */
const TILE_ROWS = 4;
/** Pairs of terms written out in a row. */
const UNROLLED = 2;
const PARTS = ROUNDED_COLUMNS / 4;

/**
 * out = x w + bias for a panel of eight columns, as productKernel does it, of whole numbers of 16 bits: one instruction
 * multiplies eight of them and adds them in pairs, where four single floats take two. Sums are exact in 32 bits and then
 * multiplied by the steps of both (fixed-point inference: B. Jacob et al., "Quantization and Training of Neural
 * Networks for Efficient Integer-Arithmetic-Only Inference", CVPR 2018, here with steps found anew for every row).
 *
 * Parameters: x, xStep, w (for every two terms the eight columns, the two terms of a column side by side), steps of the
 * columns, bias, out, outStep, rows, terms / 4 (at least 1), flags, step of x. Steps of rows are in bytes.
 */
export function roundedProductKernel(name: string): KernelFunction {
  const writer = new KernelWriter(name, 11);
  const [x, xStep, w, columnSteps, bias, out, outStep, rows, quarterTerms, flags, step] = [
    0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10,
  ] as const;
  const vectors = (count: number): Local[] => Array.from({ length: count }, () => writer.vector());
  const wholes = (count: number): Local[] => Array.from({ length: count }, () => writer.whole());
  const weights = vectors(PARTS);
  const factor = writer.vector();
  const sums = vectors(TILE_ROWS * PARTS);
  const steps = vectors(PARTS);
  const xAt = wholes(TILE_ROWS);
  const outAt = wholes(TILE_ROWS);
  const [wAt, turns] = [writer.whole(), writer.whole()];

  const tile = (height: number): void => {
    const each = (visit: (sum: Local, row: number, part: number) => void): void => {
      for (let row = 0; row < height; row++) {
        for (let part = 0; part < PARTS; part++) visit(sums[row * PARTS + part]!, row, part);
      }
    };
    writer.copy(xAt[0]!, x).copy(outAt[0]!, out);
    for (let row = 1; row < height; row++) {
      writer.sum(xAt[row]!, xAt[row - 1]!, xStep).sum(outAt[row]!, outAt[row - 1]!, outStep);
    }
    each((sum) => writer.zeros().set(sum));
    writer.copy(wAt, w).copy(turns, quarterTerms);
    writer.countDown(turns, () => {
      for (let pair = 0; pair < UNROLLED; pair++) {
        weights.forEach((weight, part) => {
          writer.load(wAt, 16 * (pair * PARTS + part)).set(weight);
        });
        for (let row = 0; row < height; row++) {
          writer.loadSplat(xAt[row]!, 4 * pair).set(factor);
          for (let part = 0; part < PARTS; part++) {
            const sum = sums[row * PARTS + part]!;
            writer.get(factor).get(weights[part]!).multiplyPairs().get(sum).addWholes().set(sum);
          }
        }
      }
      for (let row = 0; row < height; row++) writer.step(xAt[row]!, 4 * UNROLLED);
      writer.step(wAt, 16 * PARTS * UNROLLED);
    });
    each((sum, _, part) => {
      writer
        .get(sum)
        .toFloats()
        .get(steps[part]!)
        .multiply()
        .load(bias, 16 * part)
        .add()
        .set(sum);
    });
    writer.whereSet(flags, ADD_TO_RESULT, () => {
      each((sum, row, part) =>
        writer
          .load(outAt[row]!, 16 * part)
          .get(sum)
          .add()
          .set(sum),
      );
    });
    writer.whereSet(flags, RECTIFY, () => {
      each((sum) => writer.get(sum).zeros().larger().set(sum));
    });
    each((sum, row, part) => writer.store(outAt[row]!, 16 * part, sum));
    for (let row = 0; row < height; row++) writer.sum(x, x, xStep).sum(out, out, outStep);
    writer.step(rows, -height);
  };

  steps.forEach((local, part) => {
    writer
      .load(columnSteps, 16 * part)
      .loadSplat(step, 0)
      .multiply()
      .set(local);
  });
  writer.whileAtLeast(rows, TILE_ROWS, () => tile(TILE_ROWS));
  writer.whileAtLeast(rows, 1, () => tile(1));
  return writer.function();
}
