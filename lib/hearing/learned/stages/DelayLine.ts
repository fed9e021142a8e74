import type { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { RowBlock } from "../simd/Product";

/** Rows kept until a slower path has caught up with them, first in, first out. */
export class DelayLine {
  readonly rowFloats: number;
  private readonly memory: KernelMemory;
  private readonly address: number;
  private held = 0;

  /**
   * @param delay rows that may wait
   * @param mostRows largest number of rows that come at once
   */
  constructor(memory: KernelMemory, rowFloats: number, delay: number, mostRows: number) {
    this.memory = memory;
    this.rowFloats = rowFloats;
    this.address = memory.take(rowFloats * (delay + mostRows));
  }

  reset(): void {
    this.held = 0;
  }

  /** The rows that have waited longest. */
  get head(): RowBlock {
    return { address: this.address, step: this.rowFloats };
  }

  /** Where the next rows go. */
  get incoming(): RowBlock {
    return { address: this.address + 4 * this.held * this.rowFloats, step: this.rowFloats };
  }

  /** Counts in rows just written to `incoming`. */
  advance(rows: number): void {
    this.held += rows;
  }

  /** Copies rows in. */
  push({ address, step }: RowBlock, rows: number): void {
    const { floats } = this.memory;
    for (let row = 0; row < rows; row++) {
      const from = address / 4 + row * step;
      floats.copyWithin(this.incoming.address / 4, from, from + this.rowFloats);
      this.held += 1;
    }
  }

  /** Lets go of the first rows. */
  drop(rows: number): void {
    const start = this.address / 4;
    const { rowFloats, held } = this;
    this.memory.floats.copyWithin(start, start + rows * rowFloats, start + held * rowFloats);
    this.held -= rows;
  }
}
