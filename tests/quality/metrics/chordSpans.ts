/** A stretch with one label; seconds of the record. */
export interface ChordSpan {
  startSec: number;
  endSec: number;
  label: string;
}

/** Neighbours of the same label made one. */
export function mergeSpans(spans: readonly ChordSpan[]): ChordSpan[] {
  const merged: ChordSpan[] = [];
  for (const span of spans) {
    const last = merged.at(-1);
    if (last && last.label === span.label && Math.abs(last.endSec - span.startSec) < 1e-6)
      last.endSec = span.endSec;
    else merged.push({ ...span });
  }
  return merged;
}

/** Cuts an estimate to a span and fills what it leaves open with `N`; later spans yield to earlier ones. */
export function fitSpans(estimate: readonly ChordSpan[], startSec: number, endSec: number): ChordSpan[] {
  const fitted: ChordSpan[] = [];
  let reached = startSec;
  const ordered = [...estimate].sort((a, b) => a.startSec - b.startSec || a.endSec - b.endSec);
  for (const { startSec: from, endSec: to, label } of ordered) {
    const start = Math.max(from, reached);
    const end = Math.min(to, endSec);
    if (end <= start) continue;
    if (start > reached + 1e-9) fitted.push({ startSec: reached, endSec: start, label: "N" });
    fitted.push({ startSec: start, endSec: end, label });
    reached = end;
  }
  if (reached < endSec - 1e-9) fitted.push({ startSec: reached, endSec, label: "N" });
  return fitted;
}
