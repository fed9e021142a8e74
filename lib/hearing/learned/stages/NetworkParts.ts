import type { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import type { NetworkWeights } from "../NetworkWeights";
import type { NetworkKernels } from "../simd/networkKernels";
import { Product } from "../simd/Product";

/** What every stage is made from. */
export interface NetworkParts {
  memory: KernelMemory;
  kernels: NetworkKernels;
  weights: NetworkWeights;
  /** Largest number of rows that come at once. */
  mostRows: number;
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
