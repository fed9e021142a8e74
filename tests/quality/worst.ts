import type { Case } from "./Case";
import type { Prediction } from "./prediction";
import { barsReason, meterReason } from "./reasons/bars";
import { bassReason } from "./reasons/bass";
import { beatsReason, tempoReason } from "./reasons/beats";
import { chordsReason, segmentsReason } from "./reasons/chords";
import { homesReason, keyReason } from "./reasons/homes";
import { sectionsReason } from "./reasons/sections";
import { tuningReason } from "./reasons/tuning";
import type { Truth } from "./Subject";

/** The records that a metric goes worst for, worst first. */
export interface WorstOf {
  metric: string;
  items: { id: string; value: number; reason: string }[];
}

const HOW_MANY = 3;
/** What is better than this needs no reason. */
const GOOD_ENOUGH = 0.995;
const GOOD_ENOUGH_CENTS = 1;

type Reason = (truth: Truth, prediction: Prediction) => string;

/** The metrics that reasons are given for, and how these are found in what was heard and what is known. */
const REASONS: Readonly<Record<string, Reason>> = {
  tuneErr: tuningReason,
  key: keyReason,
  homes: homesReason,
  beatF: beatsReason,
  beatLevelFree: beatsReason,
  downbeatF: barsReason,
  meterExact: meterReason,
  divisionExact: ({ division }, { hearing }) =>
    `a beat heard in ${hearing.grid.division} parts where there are ${division}`,
  tempo4: tempoReason,
  majmin: (truth, prediction) => chordsReason("majmin", truth, prediction),
  majmin_inv: (truth, prediction) => chordsReason("majmin_inv", truth, prediction),
  sevenths: (truth, prediction) => chordsReason("sevenths", truth, prediction),
  seg: segmentsReason,
  boundaryF150: segmentsReason,
  bassF: bassReason,
  sectionF3: sectionsReason,
  sectionPairF: sectionsReason,
};

/** A record's own value of a metric; of a share, the share of its time. */
export function ownValue({ score }: Pick<Case, "score">, metric: string): number | undefined {
  const share = score.shares[metric];
  if (share) return share.scoredSec > 0 ? share.rightSec / share.scoredSec : undefined;
  return score.values[metric];
}

export function worstOfAll(cases: readonly Case[]): WorstOf[] {
  return Object.entries(REASONS).flatMap(([metric, reason]) => {
    const isError = metric === "tuneErr";
    const scored = cases.flatMap((one) => {
      const value = ownValue(one, metric);
      const short = value !== undefined && (isError ? value > GOOD_ENOUGH_CENTS : value < GOOD_ENOUGH);
      return short ? [{ one, value }] : [];
    });
    scored.sort((a, b) => (isError ? b.value - a.value : a.value - b.value));
    const items = scored.slice(0, HOW_MANY).map(({ one: { subject, prediction }, value }) => ({
      id: subject.id,
      value,
      reason: prediction ? reason(subject.truth, prediction) : "could not be heard",
    }));
    return items.length > 0 ? [{ metric, items }] : [];
  });
}
