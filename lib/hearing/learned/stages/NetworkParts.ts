import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { NetworkWeights } from "../NetworkWeights";
import { type NetworkKernels, networkKernels } from "../simd/networkKernels";
import { Product, type ProductExtents, type RowProduct } from "../simd/Product";
import { RoundedProduct } from "../simd/RoundedProduct";

/** What every stage is made from. */
export interface NetworkParts {
  memory: KernelMemory;
  kernels: NetworkKernels;
  weights: NetworkWeights;
  /** Largest number of rows that come at once. */
  mostRows: number;
  /** Whether the trunk rounds what it multiplies to 16 bits, which is about twice as fast. */
  rounded: boolean;
}

/** Parts for one network, with a memory of its own. */
export function newParts(weights: NetworkWeights, mostRows: number, rounded: boolean): NetworkParts {
  const memory = new KernelMemory();
  return { memory, kernels: networkKernels(memory), weights, mostRows, rounded };
}

/** @throws RangeError where more rows come at once than the parts were made for */
export function checkRows({ mostRows }: NetworkParts, rows: number): void {
  if (rows > mostRows) throw new RangeError(`At most ${mostRows} frames at once, not ${rows}.`);
}

/** A convolution over one place only, or a dense layer: weights (columns, terms). */
export function pointwise(
  { memory, kernels, weights }: NetworkParts,
  name: string,
  reorder: (term: number) => number = (term) => term,
): Product {
  const { shape, data } = weights.get(`${name}.weight`, 2);
  const [columns, terms] = [shape[0]!, shape[1]!];
  return new Product(
    memory,
    kernels,
    { terms, columns },
    (term, column) => data[column * terms + reorder(term)]!,
    weights.get(`${name}.bias`, 1).data,
  );
}

/**
 * A product of the trunk.
 * @param mostFloats numbers of x from the first row to the end of the last, at most
 */
export function trunkProduct(
  { memory, kernels, rounded }: NetworkParts,
  extents: ProductExtents,
  weightAt: (term: number, column: number) => number,
  bias: ArrayLike<number> | null,
  mostFloats: number,
): RowProduct {
  return rounded
    ? new RoundedProduct(memory, kernels, extents, weightAt, bias, mostFloats)
    : new Product(memory, kernels, extents, weightAt, bias);
}

/** A convolution of the trunk over one place only, for `places` of them at once. */
export function trunkPointwise(parts: NetworkParts, name: string, places: number): RowProduct {
  const { shape, data } = parts.weights.get(`${name}.weight`, 2);
  const [columns, terms] = [shape[0]!, shape[1]!];
  const weightAt = (term: number, column: number): number => data[column * terms + term]!;
  const bias = parts.weights.get(`${name}.bias`, 1).data;
  return trunkProduct(parts, { terms, columns }, weightAt, bias, places * terms);
}
