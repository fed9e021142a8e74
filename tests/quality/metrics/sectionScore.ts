import { matchedTimes, type PrecisionRecall, precisionRecall } from "@/lib/scoring/matching";

/** A section with its name; sections of one name repeat one another. */
export interface NamedSpan {
  startSec: number;
  endSec: number;
  label: string;
}

/** mir_eval.segment: boundaries are compared within half a second and within three. */
export const SECTION_WINDOWS_SEC = { near: 0.5, far: 3 } as const;
/** mir_eval.segment: labels are compared ten times a second. */
const FRAME_SEC = 0.1;

export interface SectionScore {
  boundariesNear: PrecisionRecall;
  boundariesFar: PrecisionRecall;
  /** Of all pairs of moments, those that bear one label in both (M. Levy and M. Sandler, IEEE TASLP 16 (2008)). */
  pairwise: PrecisionRecall;
}

/** Scores sections as mir_eval.segment does (C. Raffel et al., ISMIR 2014): the estimate is fitted to the span from 0 to the end of the reference. */
export function sectionScore(reference: readonly NamedSpan[], estimate: readonly NamedSpan[]): SectionScore {
  const endSec = Math.max(...reference.map((span) => span.endSec));
  const wanted = fitted(reference, endSec);
  const given = fitted(estimate, endSec);
  return {
    boundariesNear: boundaries(wanted, given, SECTION_WINDOWS_SEC.near),
    boundariesFar: boundaries(wanted, given, SECTION_WINDOWS_SEC.far),
    pairwise: pairwise(labelsAt(wanted, endSec), labelsAt(given, endSec)),
  };
}

/** Cut to 0 to `endSec`, with stretches of their own name where a beginning or an end lacks. */
function fitted(spans: readonly NamedSpan[], endSec: number): NamedSpan[] {
  const inside = spans
    .filter((span) => span.endSec > 0 && span.startSec < endSec)
    .map((span) => ({
      ...span,
      startSec: Math.max(0, span.startSec),
      endSec: Math.min(endSec, span.endSec),
    }));
  const first = inside[0];
  if (!first) return [{ startSec: 0, endSec, label: "no section" }];
  if (first.startSec > 0) inside.unshift({ startSec: 0, endSec: first.startSec, label: "before the first" });
  const last = inside.at(-1)!;
  if (last.endSec < endSec) inside.push({ startSec: last.endSec, endSec, label: "after the last" });
  return inside;
}

function boundaries(
  reference: readonly NamedSpan[],
  estimate: readonly NamedSpan[],
  windowSec: number,
): PrecisionRecall {
  const times = (spans: readonly NamedSpan[]) => [
    ...new Set(spans.flatMap(({ startSec, endSec }) => [round5(startSec), round5(endSec)])),
  ];
  const [wanted, given] = [times(reference), times(estimate)];
  return precisionRecall(matchedTimes(wanted, given, windowSec), wanted.length, given.length);
}

function round5(seconds: number): number {
  return Math.round(seconds * 1e5) / 1e5;
}

/** The label of each frame; the later of two sections has the moment at which they meet. */
function labelsAt(spans: readonly NamedSpan[], endSec: number): string[] {
  const labels: string[] = [];
  for (let frame = 0; frame < Math.floor(endSec / FRAME_SEC); frame++) {
    // There all of this is reckoned in single floats, and thus here.
    const timeSec = Math.fround(frame * Math.fround(FRAME_SEC));
    const span = spans.findLast(({ startSec, endSec: to }) => startSec <= timeSec && timeSec <= to);
    labels.push(span?.label.toLowerCase() ?? "");
  }
  return labels;
}

function pairwise(reference: readonly string[], estimate: readonly string[]): PrecisionRecall {
  const both = reference.map((label, i) => JSON.stringify([label, estimate[i]]));
  return precisionRecall(pairsAlike(both), pairsAlike(reference), pairsAlike(estimate));
}

function pairsAlike(labels: readonly string[]): number {
  const counts = new Map<string, number>();
  for (const label of labels) counts.set(label, (counts.get(label) ?? 0) + 1);
  return [...counts.values()].reduce((sum, count) => sum + (count * (count - 1)) / 2, 0);
}
