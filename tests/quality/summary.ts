import { median } from "@/lib/dsp/running";
import { CHORD_METRICS } from "./metrics/chordComparison";
import type { ItemScore } from "./scoreItem";

/** One metric over several records. */
export interface Figure {
  metric: string;
  value: number;
  /** How many records it is over. */
  itemCount: number;
}

/** Shares of the time over all records together, in the order in which they are printed. */
const SHARES = [...CHORD_METRICS, "majminWithin3", "seventhsWithin3", "homeWithin3"] as const;

/** Plain means over the records, in the order in which they are printed. */
const MEANS = [
  ...["key", "keyExact", "homes", "homesChange"],
  ...["beatF", "beatLevelFree", "downbeatF", "meterExact", "divisionExact", "tempo4", "tempoOct"],
  ...["overseg", "underseg", "seg", "boundaryF150"],
  ...["bassP", "bassR", "bassF", "bassFOctaveFree"],
  ...["sectionF05", "sectionF3", "sectionPairF"],
  ...["noteP", "noteR", "noteF", "slideRecall", "leadRecall", "dyadRate"],
  ...["leadP", "leadR", "leadF", "leadRoleGiven"],
  ...["fitNotesWin", "fitNotesWinHearable", "fitSteelWin", "fitSteelWinHearable", "fitChordWin", "fitKeyWin"],
  ...["glideRecall", "glidePrecision", "glideMechanism", "glideMechanismClear", "glideKindOfFound"],
] as const;

const TUNINGS_WITHIN_CENTS = [5, 10] as const;

/** Every metric that there is, in the order in which they are printed. */
export const METRICS: readonly string[] = [
  "tuneErrMedianCents",
  ...TUNINGS_WITHIN_CENTS.map((cents) => `tuneWithin${cents}`),
  ...SHARES,
  ...MEANS,
];

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Every metric over the records that are scored on it; shares are weighted by time over all records together. */
export function summarise(scores: readonly ItemScore[]): Figure[] {
  const figures: Figure[] = [];
  const add = (metric: string, values: readonly number[], value: (values: readonly number[]) => number) => {
    if (values.length > 0) figures.push({ metric, value: value(values), itemCount: values.length });
  };
  const of = (metric: string) => scores.flatMap(({ values }) => values[metric] ?? []);
  const errors = of("tuneErr");
  add("tuneErrMedianCents", errors, median);
  for (const within of TUNINGS_WITHIN_CENTS)
    add(`tuneWithin${within}`, errors, (e) => mean(e.map((x) => (x <= within ? 1 : 0))));
  for (const metric of SHARES) {
    const shares = scores.flatMap((score) => score.shares[metric] ?? []);
    const right = shares.reduce((sum, { rightSec }) => sum + rightSec, 0);
    const scored = shares.reduce((sum, { scoredSec }) => sum + scoredSec, 0);
    if (scored > 0) figures.push({ metric, value: right / scored, itemCount: shares.length });
  }
  for (const metric of MEANS) add(metric, of(metric), mean);
  return figures;
}

export function figureOf(figures: readonly Figure[], metric: string): Figure | undefined {
  return figures.find((figure) => figure.metric === metric);
}
