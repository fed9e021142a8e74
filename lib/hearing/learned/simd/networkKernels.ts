import type { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { moduleBytes } from "@/lib/dsp/simd/wasmModule";
import { type DepthwiseShape, depthwiseKernel } from "./depthwiseKernel";
import { productKernel } from "./productKernel";

type ProductCall = (
  x: number,
  xStep: number,
  w: number,
  bias: number,
  out: number,
  outStep: number,
  rows: number,
  quarterTerms: number,
  flags: number,
) => void;
export type DepthwiseCall = (x: number, w: number, bias: number, out: number, places: number) => void;

/** The kernels at work in one memory. */
export interface NetworkKernels {
  product4: ProductCall;
  product8: ProductCall;
  /** A kernel for taps at just these distances; equal shapes share one. */
  depthwise(shape: DepthwiseShape): DepthwiseCall;
}

function start(bytes: Uint8Array<ArrayBuffer>, memory: KernelMemory): WebAssembly.Exports {
  return new WebAssembly.Instance(new WebAssembly.Module(bytes), { env: { memory: memory.memory } }).exports;
}

/** Compiles the kernels. */
export function networkKernels(memory: KernelMemory): NetworkKernels {
  const products = start(moduleBytes([productKernel("product4", 4), productKernel("product8", 8)]), memory);
  const known = new Map<string, DepthwiseCall>();
  return {
    product4: products.product4 as ProductCall,
    product8: products.product8 as ProductCall,
    depthwise(shape) {
      const name = Object.values(shape).join(" ");
      const call =
        known.get(name) ?? (start(moduleBytes([depthwiseKernel("run", shape)]), memory).run as DepthwiseCall);
      known.set(name, call);
      return call;
    },
  };
}
