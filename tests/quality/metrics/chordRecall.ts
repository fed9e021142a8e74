import { CHORD_METRICS, type ChordMetric, compareChords } from "./chordComparison";
import type { ChordSpan } from "./chordSpans";

/** Seconds that were right, and seconds that the metric speaks about. */
export interface Share {
  rightSec: number;
  scoredSec: number;
}

/**
 * Weighted chord symbol recall, item by item (Harte 2010; MIREX): sums over many items give the recall over all.
 * @param reference in order, without gaps
 * @param estimate fitted to the reference's span
 */
export function chordRecall(
  reference: readonly ChordSpan[],
  estimate: readonly ChordSpan[],
): Record<ChordMetric, Share> {
  const shares = Object.fromEntries(
    CHORD_METRICS.map((metric) => [metric, { rightSec: 0, scoredSec: 0 }]),
  ) as Record<ChordMetric, Share>;
  const edges = [
    ...new Set([...reference, ...estimate].flatMap(({ startSec, endSec }) => [startSec, endSec])),
  ];
  edges.sort((a, b) => a - b);
  let r = 0;
  let e = 0;
  for (let i = 0; i + 1 < edges.length; i++) {
    const seconds = edges[i + 1]! - edges[i]!;
    const middle = (edges[i]! + edges[i + 1]!) / 2;
    while (reference[r]!.endSec < middle) r += 1;
    while (estimate[e]!.endSec < middle) e += 1;
    const verdict = compareChords(reference[r]!.label, estimate[e]!.label);
    for (const metric of CHORD_METRICS) {
      if (verdict[metric] === null) continue;
      shares[metric].scoredSec += seconds;
      if (verdict[metric]) shares[metric].rightSec += seconds;
    }
  }
  return shares;
}
