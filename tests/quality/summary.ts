import { CHORD_METRICS } from "./metrics/chordComparison";
import type { ItemScore } from "./scoreItem";

/** One metric over several items. */
export interface Figure {
  metric: string;
  value: number;
  /** How many items it is over. */
  itemCount: number;
}

/** Plain means over the items, in the order in which they are printed. */
const MEANS = [
  ...["key", "keyExact", "homes", "homesChange"],
  ...["beatF", "beatLevelFree", "downbeatF", "tempo4", "tempoOct"],
  ...["overseg", "underseg", "seg", "boundaryF150"],
  ...["bassNoteP", "bassNoteR", "bassNoteF", "bassNoteFOctaveFree"],
  ...["noteP", "noteR", "noteF", "slideRecall", "leadRecall", "dyadRate"],
  ...["leadP", "leadR", "leadF", "leadRoleGiven"],
  ...["glideRecall", "glidePrecision", "glideMechanism", "glideMechanismClear", "glideKindOfFound"],
] as const;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Every metric over the items that are scored on it; chord recalls are weighted by time over all items together. */
export function summarise(scores: readonly ItemScore[]): Figure[] {
  const figures: Figure[] = [];
  const add = (metric: string, values: readonly number[], value: (values: readonly number[]) => number) => {
    if (values.length > 0) figures.push({ metric, value: value(values), itemCount: values.length });
  };
  const of = (metric: string) => scores.flatMap(({ values }) => values[metric] ?? []);
  const errors = of("tuneErr");
  add("tuneErrMedianCents", errors, median);
  for (const within of [5, 10])
    add(`tuneWithin${within}`, errors, (e) => mean(e.map((x) => (x <= within ? 1 : 0))));
  const withChords = scores.flatMap(({ chords }) => chords ?? []);
  for (const metric of CHORD_METRICS) {
    const right = withChords.reduce((sum, chords) => sum + chords[metric].rightSec, 0);
    const scored = withChords.reduce((sum, chords) => sum + chords[metric].scoredSec, 0);
    if (scored > 0) figures.push({ metric, value: right / scored, itemCount: withChords.length });
  }
  for (const metric of MEANS) add(metric, of(metric), mean);
  return figures;
}

export function figureOf(figures: readonly Figure[], metric: string): Figure | undefined {
  return figures.find((figure) => figure.metric === metric);
}
