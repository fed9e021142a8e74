import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import type { Seconds } from "@/lib/units/quantities";
import { type Agreement, isHomePosition } from "./chordAgreement";
import type { Hold } from "./Hold";
import { HANDS } from "./hands";
import type { CostTerm, TermName } from "./Place";
import type { Spot } from "./Spot";
import type { Weights } from "./weights";

/** What is known about the moment at which a place is played. */
export interface PlaceMoment {
  key?: Key | undefined;
  /** How long the notes last; null where unknown. */
  lengthSec: Seconds | null;
  /** The place against the chord in force; null without a chord. */
  agreement: Agreement | null;
}

/** Costs of a fret, whatever is held there. */
const FRET_TERMS: readonly [TermName, (fret: number, w: Weights) => number][] = [
  [
    "neck span",
    (fret, w) =>
      w.perFretBelowNut * Math.max(0, w.nutFret - fret) +
      w.perFretAboveMiddle * Math.max(0, fret - w.middleFret),
  ],
  ["high frets", (fret, w) => w.perFretAboveHigh * Math.max(0, fret - w.highFret)],
];

/** Costs of a hold, at whatever fret. */
const HOLD_TERMS: readonly [TermName, (hold: Hold, w: Weights) => number][] = [
  ["grip shape", gripShape],
  [
    "too many for a pick",
    ({ pickedCount }, w) => w.perStringTooMany * Math.max(0, pickedCount - w.stringsPerPick),
  ],
  ["crossed strings", ({ crossed }, w) => (crossed ? w.crossedStrings : 0)],
  ["split", ({ splitStrings }, w) => w.perSplitString * splitStrings],
  ["half stop", ({ set }, w) => (set.halfStop ? w.halfStop : 0)],
  [
    "changes engaged",
    ({ set: { stages, pedals } }, w) =>
      w.perEngagedPedal * pedals.length +
      w.perEngagedLever * (stages.length - pedals.length) +
      (pedals.length > 0 && stages.length > pedals.length ? w.leverWithPedal : 0),
  ],
  ["far lever", ({ set }, w) => (set.farLever ? w.farLever : 0)],
  ["foot off its rest", ({ set }, w) => (set.footOffRest ? w.footOffRest : 0)],
];

/** Costs of the moment at which a place is played. */
const MOMENT_TERMS: readonly [TermName, (spot: Spot, moment: PlaceMoment, w: Weights) => number][] = [
  ["open strings", openStrings],
  [
    "position of home",
    (spot, { key }, w) => (key && !spot.slant && isHomePosition(spot, key) ? w.homePosition : 0),
  ],
  [
    "chord in force",
    (_, { agreement }, w) =>
      agreement === "matched" ? w.chordMatched : agreement === "near" ? w.chordNearlyMatched : 0,
  ],
];

function gripShape({ usualGrip, firstString, lastString, pickedCount }: Hold, w: Weights): number {
  const isWide = pickedCount > 0 && lastString - firstString > HANDS.stringSpan;
  return (usualGrip ? 0 : w.unusualGrip) + (isWide ? w.wideGrip : 0);
}

function openStrings({ fret, hold }: Spot, { key, lengthSec }: PlaceMoment, w: Weights): number {
  if (fret !== 0) return 0;
  const isOpenKey =
    key !== undefined && (hold.set.neck.openTonicMask >> parsePitchName(key.tonic).pitchClass) & 1;
  return isOpenKey || (lengthSec !== null && lengthSec < w.openRunSec) ? 0 : w.openStrings;
}

/** The cost of being at a place, term by term; terms that are 0 are left out. */
export function placeTerms(spot: Spot, moment: PlaceMoment, w: Weights): CostTerm[] {
  const terms: CostTerm[] = [
    ...FRET_TERMS.map(([name, term]) => ({ name, cost: term(spot.fret, w) })),
    ...HOLD_TERMS.map(([name, term]) => ({ name, cost: term(spot.hold, w) })),
    ...MOMENT_TERMS.map(([name, term]) => ({ name, cost: term(spot, moment, w) })),
    { name: "slant", cost: slantCost(spot, w) },
  ];
  return terms.filter(({ cost }) => cost !== 0);
}

/** Sum of {@link placeTerms}. */
export function placeCost(spot: Spot, moment: PlaceMoment, w: Weights): number {
  const { fret, hold } = spot;
  return fretCost(fret, w) + holdCost(hold, w) + momentCost(spot, moment, w) + slantCost(spot, w);
}

/** The part of {@link placeCost} that only the fret decides. */
export function fretCost(fret: number, w: Weights): number {
  return FRET_TERMS.reduce((sum, [, term]) => sum + term(fret, w), 0);
}

/** The part that only the hold decides. */
export function holdCost(hold: Hold, w: Weights): number {
  return HOLD_TERMS.reduce((sum, [, term]) => sum + term(hold, w), 0);
}

/** The part that the moment decides. */
export function momentCost(spot: Spot, moment: PlaceMoment, w: Weights): number {
  return MOMENT_TERMS.reduce((sum, [, term]) => sum + term(spot, moment, w), 0);
}

/** The part that a slanted bar adds: more on a pedal steel, where strings lie closer and pedals do the same. */
export function slantCost({ slant, hold }: Spot, w: Weights): number {
  if (!slant) return 0;
  const steep = slant.span > 1 ? w.steepSlant : 0;
  const split = slant.family === "split" ? w.splitSlant : 0;
  return (w.slant + steep + split) * (hold.disturbs.length > 0 ? w.slantWithPedals : 1);
}
