const PAGE_BYTES = 65_536;
/** Wide enough for any vector load. */
const ALIGN_BYTES = 16;
/** Kernels may be asked to read a few floats past a block's end. */
const SLACK_BYTES = 64;

/** Place of a block in the memory of kernels, in bytes. */
export type Address = number;

/** The one memory that the kernels work in. Blocks are only ever added; all are 0 at first. */
export class KernelMemory {
  readonly memory = new WebAssembly.Memory({ initial: 1 });
  private end = ALIGN_BYTES;
  private view = new Float32Array(this.memory.buffer);

  /** All of the memory as floats; a block at `address` begins at `address / 4`. Asked for anew after each take. */
  get floats(): Float32Array {
    return this.view;
  }

  get byteLength(): number {
    return this.memory.buffer.byteLength;
  }

  /** A new block of `length` floats. */
  take(length: number): Address {
    const address = this.end;
    const bytes = 4 * length + SLACK_BYTES;
    this.end += Math.ceil(bytes / ALIGN_BYTES) * ALIGN_BYTES;
    const missing = this.end - this.byteLength;
    if (missing > 0) {
      this.memory.grow(Math.ceil(missing / PAGE_BYTES));
      this.view = new Float32Array(this.memory.buffer);
    }
    return address;
  }

  /** A new block that holds `values`. */
  keep(values: ArrayLike<number>): Address {
    const address = this.take(values.length);
    this.view.set(values, address / 4);
    return address;
  }
}
