import type { Address, KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { NetworkKernels } from "./networkKernels";
import { ADD_TO_RESULT, RECTIFY } from "./productKernel";

/** Rows in the network's memory. */
export interface RowBlock {
  address: Address;
  /** From one row to the next, in floats. */
  step: number;
}

export interface ProductOptions {
  /** Add to what stands in the result. */
  addToResult?: boolean;
  /** Keep nothing below 0. */
  rectify?: boolean;
}

export interface ProductExtents {
  /** Numbers that a row of input gives to the sum. */
  terms: number;
  columns: number;
}

/** A matrix of weights that rows are multiplied with; results are `width` wide. */
export interface RowProduct extends ProductExtents {
  readonly width: number;
  run(x: RowBlock, out: RowBlock, rows: number, options?: ProductOptions): void;
}

/**
 * A matrix of weights that rows are multiplied with, in single floats. Columns are kept in panels of eight, the last of four
 * where no more are needed; results are therefore `width` wide, a multiple of 4, with zeros after `columns`.
 */
export class Product implements RowProduct {
  /** Numbers that a row of input gives to the sum, a multiple of 4. */
  readonly terms: number;
  readonly columns: number;
  readonly width: number;
  private readonly kernels: NetworkKernels;
  private readonly panels: { columns: 4 | 8; weights: Address; bias: Address; first: number }[] = [];

  /**
   * @param weightAt weight of a term in a column
   * @param bias one a column; null for none
   */
  constructor(
    memory: KernelMemory,
    kernels: NetworkKernels,
    extents: ProductExtents,
    weightAt: (term: number, column: number) => number,
    bias: ArrayLike<number> | null,
  ) {
    const { terms, columns } = extents;
    if (terms % 4 !== 0) throw new RangeError(`Sums of ${terms} terms do not fit vectors of four.`);
    this.terms = terms;
    this.columns = columns;
    this.width = 4 * Math.ceil(columns / 4);
    this.kernels = kernels;
    for (let first = 0; first < this.width; ) {
      const size = this.width - first >= 8 ? 8 : 4;
      const inside = (column: number): boolean => first + column < columns;
      const weights = Float32Array.from({ length: terms * size }, (_, at) => {
        const column = at % size;
        return inside(column) ? weightAt((at - column) / size, first + column) : 0;
      });
      const biases = Float32Array.from({ length: size }, (_, column) =>
        inside(column) ? (bias?.[first + column] ?? 0) : 0,
      );
      this.panels.push({ columns: size, weights: memory.keep(weights), bias: memory.keep(biases), first });
      first += size;
    }
  }

  run(x: RowBlock, out: RowBlock, rows: number, options: ProductOptions = {}): void {
    if (rows === 0) return;
    const flags = (options.addToResult ? ADD_TO_RESULT : 0) + (options.rectify ? RECTIFY : 0);
    for (const { columns, weights, bias, first } of this.panels) {
      const kernel = columns === 8 ? this.kernels.product8 : this.kernels.product4;
      kernel(
        x.address,
        4 * x.step,
        weights,
        bias,
        out.address + 4 * first,
        4 * out.step,
        rows,
        this.terms / 4,
        flags,
      );
    }
  }
}
