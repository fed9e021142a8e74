import type { RowBlock } from "../simd/Product";

/** Takes a layer's rows, one a frame, as they come. A stage gives exactly as many rows as it gets. */
export interface RowSink {
  /** The rows stand there only until this returns; at most the number that the stage was made for. */
  push(block: RowBlock, rows: number): void;
  /** No more rows come: what lies ahead counts as 0, as before the first row. */
  finish(): void;
}

/** Hands every row on to several others. */
export function toAll(sinks: readonly RowSink[]): RowSink {
  return {
    push: (block, rows) => {
      for (const sink of sinks) sink.push(block, rows);
    },
    finish: () => {
      for (const sink of sinks) sink.finish();
    },
  };
}
