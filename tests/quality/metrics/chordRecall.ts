import { CHORD_METRICS, type ChordMetric, compareChords } from "./chordComparison";
import type { ChordSpan } from "./chordSpans";
import { piecesOf } from "./pieces";

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
  for (const { startSec, endSec, reference: wanted, estimate: given } of piecesOf(reference, estimate)) {
    const verdict = compareChords(wanted.label, given!.label);
    for (const metric of CHORD_METRICS) {
      if (verdict[metric] === null) continue;
      shares[metric].scoredSec += endSec - startSec;
      if (verdict[metric]) shares[metric].rightSec += endSec - startSec;
    }
  }
  return shares;
}
