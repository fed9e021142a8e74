import type { ResampledSignal } from "./resample";

/** How a record is cut into frames: `size` samples each, one every `hop` samples, frame i centred on sample i * hop. */
export interface Framing {
  size: number;
  hop: number;
}

/** Frames needed so that every sample of the record lies under the centre half of one. */
export function frameCount(signal: ResampledSignal, framing: Framing): number {
  return Math.ceil(signal.length / framing.hop) + 1;
}

/** Samples read from the record at once; bounds memory whatever the length of the record. */
const BLOCK_SAMPLES = 1 << 18;

/**
 * Calls `visit` with each frame in order, times `window`. The frame's buffer is used again for the next one.
 * @param window length `framing.size`
 * @param onFrame told before each frame its number; throw here to stop
 */
export function forEachFrame(
  signal: ResampledSignal,
  framing: Framing,
  window: Float64Array,
  visit: (frame: Float64Array, index: number) => void,
  onFrame?: (index: number, count: number) => void,
): void {
  const { size, hop } = framing;
  const count = frameCount(signal, framing);
  const perBlock = Math.max(1, Math.floor((BLOCK_SAMPLES - size) / hop));
  const block = new Float32Array((perBlock - 1) * hop + size);
  const frame = new Float64Array(size);
  for (let first = 0; first < count; first += perBlock) {
    signal.read(first * hop - size / 2, block);
    const last = Math.min(count, first + perBlock);
    for (let index = first; index < last; index++) {
      onFrame?.(index, count);
      const start = (index - first) * hop;
      for (let n = 0; n < size; n++) frame[n] = block[start + n]! * window[n]!;
      visit(frame, index);
    }
  }
}
