import { matchedTimes, precisionRecall } from "@/lib/scoring/matching";
import type { ChordSpan } from "./chordSpans";

/** Half a syllable or so: how far a chord change may stand from where it is marked. */
export const BOUNDARY_WINDOW_SEC = 0.15;

/** F of the times at which the chord changes, the first beginning left out. */
export function boundaryF(reference: readonly ChordSpan[], estimate: readonly ChordSpan[]): number {
  const changes = (spans: readonly ChordSpan[]) => spans.slice(1).map(({ startSec }) => startSec);
  const hits = matchedTimes(changes(reference), changes(estimate), BOUNDARY_WINDOW_SEC);
  return precisionRecall(hits, reference.length - 1, estimate.length - 1).f;
}
