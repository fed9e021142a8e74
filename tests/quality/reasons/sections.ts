import { piecesOf } from "../metrics/pieces";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { addTo, counted, largest, seconds } from "./words";

/** Whether there are too many sections or too few, and which are taken for one. */
export function sectionsReason({ sections }: Truth, { hearing }: Prediction): string {
  const kinds = new Map<string, number>();
  const mostly = (label: string, of: "reference" | "estimate") => {
    const times = new Map<string, number>();
    for (const { startSec, endSec, reference, estimate } of piecesOf(sections!, hearing.sections)) {
      if (!estimate) continue;
      const [from, to] = of === "reference" ? [reference, estimate] : [estimate, reference];
      if (from.label === label) addTo(times, to.label, endSec - startSec);
    }
    return [...times].sort((a, b) => b[1] - a[1]);
  };
  for (const label of new Set(sections!.map((section) => section.label))) {
    const [, ...others] = mostly(label, "reference");
    addTo(
      kinds,
      `of ${label} under another letter than the rest of it`,
      others.reduce((sum, [, sec]) => sum + sec, 0),
    );
  }
  for (const label of new Set(hearing.sections.map((section) => section.label))) {
    const [first, ...others] = mostly(label, "estimate");
    for (const [other, sec] of others) addTo(kinds, `of ${other} heard as more of ${first![0]}`, sec);
  }
  const confused = largest(kinds, seconds);
  return `${counted(hearing.sections.length, "section")} told where there are ${sections!.length}${confused ? `; ${confused}` : ""}`;
}
