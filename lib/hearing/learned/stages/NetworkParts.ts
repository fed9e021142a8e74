import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { NetworkWeights } from "../NetworkWeights";
import { type NetworkKernels, networkKernels } from "../simd/networkKernels";
import { Product } from "../simd/Product";

/** What every stage is made from. */
export interface NetworkParts {
  memory: KernelMemory;
  kernels: NetworkKernels;
  weights: NetworkWeights;
  /** Largest number of rows that come at once. */
  mostRows: number;
}

/** Parts for one network, with a memory of its own. */
export function newParts(weights: NetworkWeights, mostRows: number): NetworkParts {
  const memory = new KernelMemory();
  return { memory, kernels: networkKernels(memory), weights, mostRows };
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
