import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import type { Agreement } from "./chordAgreement";
import type { PlaceFacts } from "./facts";
import type { CostTerm, TermName } from "./Place";
import type { Weights } from "./weights";

/** What is known about the moment at which a place is played. */
export interface PlaceMoment {
  key?: Key | undefined;
  /** How long the notes last; null where unknown. */
  lengthSec: Seconds | null;
  /** The place against the chord in force; null without a chord. */
  agreement: Agreement | null;
}

type PlaceTerm = (facts: PlaceFacts, moment: PlaceMoment, weights: Weights) => number;

/** Every cost of being at a place, by name. */
const PLACE_TERMS: readonly [TermName, PlaceTerm][] = [
  [
    "neck span",
    ({ place: { fret } }, _, w) =>
      (fret < w.comfortableFrom || fret > w.comfortableTo ? w.outsideSpan : 0) +
      w.perFretAboveMiddle * Math.max(0, fret - w.middleFret),
  ],
  [
    "high frets",
    ({ place: { fret } }, _, w) =>
      fret > w.highFret ? w.aboveHighFret + w.perFretAboveHigh * (fret - w.highFret - 1) : 0,
  ],
  ["open strings", openStrings],
  ["grip shape", ({ usualGrip }, _, w) => (usualGrip ? 0 : w.unusualGrip)],
  ["crossed strings", ({ crossed }, _, w) => (crossed ? w.crossedStrings : 0)],
  ["split", ({ splitStrings }, _, w) => w.perSplitString * splitStrings],
  ["half stop", ({ halfStop }, _, w) => (halfStop ? w.halfStop : 0)],
  [
    "changes engaged",
    ({ held, pedals }, _, w) =>
      w.perEngagedPedal * pedals.length + w.perEngagedLever * (held.stages.length - pedals.length),
  ],
  ["far lever", ({ farLever }, _, w) => (farLever ? w.farLever : 0)],
  ["foot off its rest", ({ footOffRest }, _, w) => (footOffRest ? w.footOffRest : 0)],
  [
    "chord in force",
    (_, { agreement }, w) =>
      agreement === "matched" ? w.chordMatched : agreement === "near" ? w.chordNearlyMatched : 0,
  ],
];

function openStrings({ place }: PlaceFacts, { key, lengthSec }: PlaceMoment, weights: Weights): number {
  if (place.fret !== 0) return 0;
  const openKey = key?.tonic === "E" || key?.tonic === "A";
  return openKey || (lengthSec !== null && lengthSec < weights.openRunSec) ? 0 : weights.openStrings;
}

/** The cost of being at a place, term by term; terms that are 0 are left out. */
export function placeTerms(facts: PlaceFacts, moment: PlaceMoment, weights: Weights): CostTerm[] {
  return PLACE_TERMS.map(([name, term]) => ({ name, cost: term(facts, moment, weights) })).filter(
    ({ cost }) => cost !== 0,
  );
}

/** Sum of {@link placeTerms}. */
export function placeCost(facts: PlaceFacts, moment: PlaceMoment, weights: Weights): number {
  return PLACE_TERMS.reduce((sum, [, term]) => sum + term(facts, moment, weights), 0);
}
