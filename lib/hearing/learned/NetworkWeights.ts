import type { NoteMap } from "./layout";

/** A block of numbers with its extents, outermost first. */
export interface Tensor {
  shape: readonly number[];
  data: Float32Array;
}

/** The layers of the network by name, batch normalisation folded into the convolution before it. */
export class NetworkWeights {
  /** What the note head says, by place. */
  readonly noteMaps: readonly NoteMap[];
  private readonly tensors: ReadonlyMap<string, Tensor>;

  constructor(tensors: ReadonlyMap<string, Tensor>, noteMaps: readonly NoteMap[]) {
    this.tensors = tensors;
    this.noteMaps = noteMaps;
  }

  /**
   * @param rank number of extents asked for
   * @throws RangeError where there is no such tensor, or its extents differ in number
   */
  get(name: string, rank: number): Tensor {
    const tensor = this.tensors.get(name);
    if (!tensor) throw new RangeError(`The ear's weights hold no "${name}".`);
    if (tensor.shape.length !== rank) {
      throw new RangeError(`"${name}" of the ear's weights has ${tensor.shape.length} extents, not ${rank}.`);
    }
    return tensor;
  }
}
