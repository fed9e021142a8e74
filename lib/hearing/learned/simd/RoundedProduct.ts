import type { Address, KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { NetworkKernels } from "./networkKernels";
import type { ProductExtents, ProductOptions, RowBlock, RowProduct } from "./Product";
import { ADD_TO_RESULT, RECTIFY } from "./productKernel";
import { ROUNDED_COLUMNS } from "./roundedProductKernel";
import { MOST_ROUNDED } from "./roundingKernel";

const MOST_WEIGHT = 0x7fff;
const MOST_SUM = 0x7fffffff;
/** Numbers are rounded so many at once. */
const BLOCK = 8;

/**
 * A matrix of weights that rows are multiplied with, both rounded to 16 bits on the way: about twice as fast as
 * {@link Product}, and off by a few ten-thousandths of the largest number. The rows of one call share a step, and the
 * weights of each column; these steps are as fine as leaves no sum past 32 bits.
 */
export class RoundedProduct implements RowProduct {
  readonly terms: number;
  readonly columns: number;
  readonly width: number;
  private readonly kernels: NetworkKernels;
  private readonly panels: { weights: Address; steps: Address; bias: Address }[] = [];
  private readonly rounded: Address;
  private readonly step: Address;
  private readonly mostFloats: number;

  /**
   * @param extents columns a multiple of 8, terms one of 4
   * @param mostFloats numbers of x from the first row to the end of the last, at most; a multiple of 8, always
   */
  constructor(
    memory: KernelMemory,
    kernels: NetworkKernels,
    { terms, columns }: ProductExtents,
    weightAt: (term: number, column: number) => number,
    bias: ArrayLike<number> | null,
    mostFloats: number,
  ) {
    if (terms % 4 !== 0 || columns % ROUNDED_COLUMNS !== 0) {
      throw new RangeError(`${terms} terms and ${columns} columns do not fit vectors of four and eight.`);
    }
    this.terms = terms;
    this.columns = columns;
    this.width = columns;
    this.kernels = kernels;
    this.mostFloats = mostFloats;
    for (let first = 0; first < columns; first += ROUNDED_COLUMNS) {
      const weights = new Int16Array(terms * ROUNDED_COLUMNS);
      const steps = new Float32Array(ROUNDED_COLUMNS);
      const biases = new Float32Array(ROUNDED_COLUMNS);
      for (let column = 0; column < ROUNDED_COLUMNS; column++) {
        const whole = Array.from({ length: terms }, (_, term) => weightAt(term, first + column));
        const step = stepOf(whole);
        steps[column] = step;
        biases[column] = bias?.[first + column] ?? 0;
        whole.forEach((weight, term) => {
          const at = ROUNDED_COLUMNS * (term - (term % 2)) + 2 * column + (term % 2);
          weights[at] = Math.round(weight / step);
        });
      }
      this.panels.push({
        weights: memory.keep(new Float32Array(weights.buffer)),
        steps: memory.keep(steps),
        bias: memory.keep(biases),
      });
    }
    this.rounded = memory.take(mostFloats / 2);
    this.step = memory.take(1);
  }

  run(x: RowBlock, out: RowBlock, rows: number, options: ProductOptions = {}): void {
    if (rows === 0) return;
    const floats = (rows - 1) * x.step + this.terms;
    if (floats > this.mostFloats || floats % BLOCK !== 0) {
      throw new RangeError(`At most ${this.mostFloats} numbers in blocks of ${BLOCK}, not ${floats}.`);
    }
    this.kernels.round(x.address, floats / BLOCK, this.rounded, this.step);
    const flags = (options.addToResult ? ADD_TO_RESULT : 0) + (options.rectify ? RECTIFY : 0);
    this.panels.forEach(({ weights, steps, bias }, panel) => {
      this.kernels.roundedProduct(
        this.rounded,
        2 * x.step,
        weights,
        steps,
        bias,
        out.address + 4 * ROUNDED_COLUMNS * panel,
        4 * out.step,
        rows,
        this.terms / 4,
        flags,
        this.step,
      );
    });
  }
}

/** The finest step for the weights of a column with which no sum of products gets past 32 bits. */
function stepOf(weights: readonly number[]): number {
  const sum = weights.reduce((total, weight) => total + Math.abs(weight), 0);
  const most = weights.reduce((peak, weight) => Math.max(peak, Math.abs(weight)), 0);
  // Rounding makes each weight larger by half a step at most.
  const mostSteps = Math.floor(MOST_SUM / MOST_ROUNDED) - weights.length / 2;
  return Math.max(most / MOST_WEIGHT, sum / mostSteps) || 1;
}
