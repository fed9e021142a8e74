import type { KernelMemory } from "./KernelMemory";
import { type KernelFunction, moduleBytes } from "./wasmModule";

/** A kernel at work: addresses, steps and counts in, nothing out. */
export type Kernel = (...parameters: number[]) => void;

/** Compiles kernels to work in one memory, by name. */
export function startKernels(
  memory: KernelMemory,
  functions: readonly KernelFunction[],
): Partial<Record<string, Kernel>> {
  const module = new WebAssembly.Module(moduleBytes(functions));
  return new WebAssembly.Instance(module, { env: { memory: memory.memory } }).exports as Record<
    string,
    Kernel
  >;
}
