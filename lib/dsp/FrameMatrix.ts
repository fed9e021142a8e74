/** Rows of equal width, one a frame, in one block of 32-bit floats. */
export class FrameMatrix {
  readonly rows: number;
  readonly width: number;
  readonly data: Float32Array;

  constructor(rows: number, width: number) {
    this.rows = rows;
    this.width = width;
    this.data = new Float32Array(rows * width);
  }

  /** A view of one row: writing to it writes to the matrix. */
  row(index: number): Float32Array {
    if (index < 0 || index >= this.rows) throw new RangeError(`There is no row ${index} of ${this.rows}.`);
    return this.data.subarray(index * this.width, (index + 1) * this.width);
  }
}
