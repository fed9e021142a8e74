import { matchedTimes, precisionRecall } from "@/lib/scoring/matching";

/** How far a beat may stand from where it is marked (Dixon 2007; mir_eval.beat). */
export const BEAT_WINDOW_SEC = 0.07;

/** F of beats within 70 ms, one to one. */
export function beatF(reference: readonly number[], estimate: readonly number[]): number {
  return precisionRecall(
    matchedTimes(reference, estimate, BEAT_WINDOW_SEC),
    reference.length,
    estimate.length,
  ).f;
}
