import type { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { RowBlock } from "../simd/Product";

/**
 * The rows that a convolution over time sees: those not yet answered, and `reach` more each way. Rows before the
 * first and after the last are 0. Whatever the number of rows that come at once, every row is answered once, with
 * the same rows about it.
 */
export class TimeWindow {
  readonly rowFloats: number;
  readonly reach: number;
  private readonly memory: KernelMemory;
  private readonly address: number;
  private readonly mostRows: number;
  private filled: number;

  /** @param mostRows largest number of rows that come at once */
  constructor(memory: KernelMemory, rowFloats: number, reach: number, mostRows: number) {
    this.memory = memory;
    this.rowFloats = rowFloats;
    this.reach = reach;
    this.mostRows = mostRows;
    this.filled = reach;
    this.address = memory.take(rowFloats * (2 * reach + mostRows));
  }

  /** Back to before the first row. */
  reset(): void {
    this.filled = this.reach;
    this.memory.floats.fill(0, this.address / 4, this.address / 4 + this.rowFloats * this.reach);
  }

  /** Where the next rows are to be written. */
  get incoming(): RowBlock {
    return this.at(this.filled);
  }

  /** The row `reach` before the first one to be answered. */
  get first(): RowBlock {
    return this.at(0);
  }

  /** The first row to be answered. */
  get centre(): RowBlock {
    return this.at(this.reach);
  }

  /** Counts in rows just written; `answer` is told how many rows have all they need, if any. */
  advance(rows: number, answer: (ready: number) => void): void {
    this.filled += rows;
    const ready = this.filled - 2 * this.reach;
    if (ready <= 0) return;
    answer(ready);
    const { floats } = this.memory;
    const start = this.address / 4;
    floats.copyWithin(start, start + ready * this.rowFloats, start + this.filled * this.rowFloats);
    this.filled -= ready;
  }

  /** Lets `reach` empty rows follow, so that the last rows are answered. */
  finish(answer: (ready: number) => void): void {
    for (let left = this.reach; left > 0; ) {
      const rows = Math.min(left, this.mostRows);
      const start = this.incoming.address / 4;
      this.memory.floats.fill(0, start, start + rows * this.rowFloats);
      this.advance(rows, answer);
      left -= rows;
    }
  }

  private at(row: number): RowBlock {
    return { address: this.address + 4 * row * this.rowFloats, step: this.rowFloats };
  }
}
