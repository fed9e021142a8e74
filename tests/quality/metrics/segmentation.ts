import { type ChordSpan, mergeSpans } from "./chordSpans";
import { chordIdentity } from "./harteEncoding";

/** Spans by the chords they name, neighbours of the same chord made one. */
export function chordSegments(spans: readonly ChordSpan[]): ChordSpan[] {
  return mergeSpans(spans.map((span) => ({ ...span, label: chordIdentity(span.label) })));
}

/** Directional Hamming distance (Harte 2010, section 8.3): what of each segment of `a` its best part in `b` misses. */
function directionalHamming(a: readonly ChordSpan[], b: readonly ChordSpan[]): number {
  let missed = 0;
  for (const { startSec, endSec } of a) {
    const inner = b.flatMap((span) => [span.startSec, span.endSec]).filter((x) => startSec < x && x < endSec);
    const edges = [...new Set([startSec, endSec, ...inner])].sort((x, y) => x - y);
    const longest = edges.slice(1).reduce((most, edge, i) => Math.max(most, edge - edges[i]!), 0);
    missed += endSec - startSec - longest;
  }
  return missed / (a.at(-1)!.endSec - a[0]!.startSec);
}

/** 1 is best; `seg` is the lesser of the two. */
export interface Segmentation {
  overseg: number;
  underseg: number;
  seg: number;
}

/** @param reference and `estimate`: segments over the same span, from {@link chordSegments} */
export function segmentation(reference: readonly ChordSpan[], estimate: readonly ChordSpan[]): Segmentation {
  const overseg = 1 - directionalHamming(reference, estimate);
  const underseg = 1 - directionalHamming(estimate, reference);
  return { overseg, underseg, seg: Math.min(overseg, underseg) };
}
