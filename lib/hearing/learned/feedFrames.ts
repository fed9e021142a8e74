import type { EarFeatures } from "./EarFeatures";

/** Frames that go through a network at once: enough to keep its loops long, few enough to stay in cache. */
export const ROWS_AT_ONCE = 16;

/** Told each frame's number before it is heard; what it throws stops the hearing. */
export type FrameWatcher = (index: number, count: number) => void;

/** A network that is given rows of features, and told when the record is over. */
export interface FrameNetwork {
  push(features: Float32Array, rows: number): void;
  finish(): void;
}

/** Gives a network all frames of a record, as many at once as the features were made for. */
export function feedFrames(features: EarFeatures, network: FrameNetwork, onFrame?: FrameWatcher): void {
  const { count, mostRows, width } = features;
  const rows = new Float32Array(mostRows * width);
  for (let first = 0; first < count; first += mostRows) {
    const length = Math.min(mostRows, count - first);
    for (let i = first; i < first + length; i++) onFrame?.(i, count);
    features.read(first, length, rows);
    network.push(rows, length);
  }
  network.finish();
}
