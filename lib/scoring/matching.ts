/** One-to-one matching of references and estimates, as large as can be (augmenting paths). */
export function largestMatching(candidates: readonly (readonly number[])[], estimateCount: number): number[] {
  /** For each estimate the reference it goes with, or -1. */
  const referenceOf = new Array<number>(estimateCount).fill(-1);
  const assign = (reference: number, seen: Set<number>): boolean => {
    for (const estimate of candidates[reference]!) {
      if (seen.has(estimate)) continue;
      seen.add(estimate);
      const holder = referenceOf[estimate]!;
      if (holder < 0 || assign(holder, seen)) {
        referenceOf[estimate] = reference;
        return true;
      }
    }
    return false;
  };
  for (let reference = 0; reference < candidates.length; reference++) assign(reference, new Set());
  return referenceOf;
}

/** How many are matched. */
export function matchedCount(candidates: readonly (readonly number[])[], estimateCount: number): number {
  return largestMatching(candidates, estimateCount).filter((reference) => reference >= 0).length;
}

/** Times matched one to one within a window; the edge of the window counts as within. */
export function matchedTimes(
  reference: readonly number[],
  estimate: readonly number[],
  windowSec: number,
): number {
  const candidates = reference.map((time) =>
    estimate.flatMap((other, j) => (Math.abs(time - other) <= windowSec + 1e-12 ? [j] : [])),
  );
  return matchedCount(candidates, estimate.length);
}

export interface PrecisionRecall {
  precision: number;
  recall: number;
  f: number;
}

/** Nothing asked and nothing given counts as right. */
export function precisionRecall(
  hits: number,
  referenceCount: number,
  estimateCount: number,
): PrecisionRecall {
  if (referenceCount === 0 && estimateCount === 0) return { precision: 1, recall: 1, f: 1 };
  const precision = estimateCount > 0 ? hits / estimateCount : 0;
  const recall = referenceCount > 0 ? hits / referenceCount : 0;
  const f = precision + recall > 0 ? (2 * precision * recall) / (precision + recall) : 0;
  return { precision, recall, f };
}

/** Hits as a part of all; null where there are none to be hit. */
export function share(hits: number, of: number): number | null {
  return of > 0 ? hits / of : null;
}
