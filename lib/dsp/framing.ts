import type { Signal } from "./Signal";
import type { Address, KernelMemory } from "./simd/KernelMemory";

/** How a record is cut into frames: `size` samples each, one every `hop` samples, frame i centred on sample i * hop. */
export interface Framing {
  size: number;
  hop: number;
}

/** Frames needed so that every sample of the record lies under the centre half of one. */
export function frameCount(signal: Signal, framing: Framing): number {
  return Math.ceil(signal.length / framing.hop) + 1;
}

/** Samples read from the record at once; bounds memory whatever the length of the record. */
const BLOCK_SAMPLES = 1 << 16;

/**
 * Calls `visit` with each frame in order. Frames overlap where they lie: they are only to be read.
 * @param memory where the frames are put
 * @param visit told where in the memory the frame begins, and its number
 * @param onFrame told before each frame its number; throw here to stop
 */
export function forEachFrame(
  signal: Signal,
  framing: Framing,
  memory: KernelMemory,
  visit: (frame: Address, index: number) => void,
  onFrame?: (index: number, count: number) => void,
): void {
  const { size, hop } = framing;
  const count = frameCount(signal, framing);
  const perBlock = Math.max(1, Math.floor((BLOCK_SAMPLES - size) / hop));
  const length = (perBlock - 1) * hop + size;
  const block = memory.take(length);
  for (let first = 0; first < count; first += perBlock) {
    signal.read(first * hop - size / 2, memory.floats.subarray(block / 4, block / 4 + length));
    const last = Math.min(count, first + perBlock);
    for (let index = first; index < last; index++) {
      onFrame?.(index, count);
      visit(block + 4 * (index - first) * hop, index);
    }
  }
}
