import type { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { moduleBytes } from "@/lib/dsp/simd/wasmModule";
import { CHORD_STEP_FRAMES } from "../layout";
import { additionKernel } from "./additionKernel";
import { type DepthwiseShape, depthwiseKernel } from "./depthwiseKernel";
import { interleaveKernel } from "./interleaveKernel";
import { productKernel } from "./productKernel";
import { roundedProductKernel } from "./roundedProductKernel";
import { roundingKernel } from "./roundingKernel";

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
type RoundingCall = (x: number, blocks: number, out: number, step: number) => void;
type RoundedProductCall = (
  x: number,
  xStep: number,
  w: number,
  columnSteps: number,
  bias: number,
  out: number,
  outStep: number,
  rows: number,
  quarterTerms: number,
  flags: number,
  step: number,
) => void;
export type DepthwiseCall = (x: number, w: number, bias: number, out: number, places: number) => void;

export type InterleaveCall = (from: number, out: number, blocks: number) => void;

export type AdditionCall = (x: number, out: number, vectors: number, rows: number) => void;

/** The kernels at work in one memory. */
export interface NetworkKernels {
  product4: ProductCall;
  product8: ProductCall;
  round: RoundingCall;
  roundedProduct: RoundedProductCall;
  /** Adds rows of numbers to others, whole or by the share of one frame in a step of the chord head. */
  add: AdditionCall;
  addShare: AdditionCall;
  /** A kernel for taps at just these distances; equal shapes share one. */
  depthwise(shape: DepthwiseShape): DepthwiseCall;
  /** A kernel for channels that begin at just these places. */
  interleave(starts: readonly number[]): InterleaveCall;
}

function start(bytes: Uint8Array<ArrayBuffer>, memory: KernelMemory): WebAssembly.Exports {
  return new WebAssembly.Instance(new WebAssembly.Module(bytes), { env: { memory: memory.memory } }).exports;
}

/** Compiles the kernels. */
export function networkKernels(memory: KernelMemory): NetworkKernels {
  const shared = start(
    moduleBytes([
      productKernel("product4", 4),
      productKernel("product8", 8),
      roundingKernel("round"),
      roundedProductKernel("roundedProduct"),
      additionKernel("add", 1),
      additionKernel("addShare", 1 / CHORD_STEP_FRAMES),
    ]),
    memory,
  );
  const known = new Map<string, DepthwiseCall>();
  return {
    product4: shared.product4 as ProductCall,
    product8: shared.product8 as ProductCall,
    round: shared.round as RoundingCall,
    roundedProduct: shared.roundedProduct as RoundedProductCall,
    add: shared.add as AdditionCall,
    addShare: shared.addShare as AdditionCall,
    depthwise(shape) {
      const name = Object.values(shape).join(" ");
      const call =
        known.get(name) ?? (start(moduleBytes([depthwiseKernel("run", shape)]), memory).run as DepthwiseCall);
      known.set(name, call);
      return call;
    },
    interleave: (starts) =>
      start(moduleBytes([interleaveKernel("run", starts)]), memory).run as InterleaveCall,
  };
}
