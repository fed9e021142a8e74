import type { Seconds } from "@/lib/units/quantities";
import type { Agreement } from "../chordAgreement";
import type { CostTerm } from "../Place";
import type { Fingering } from "./Fingering";
import type { FingerWeights } from "./fingerWeights";
import { fretDistanceMm, fretsUnderHand } from "./fretGeometry";

/** A fingering with the hand in one position. */
export interface HandState {
  fingering: Fingering;
  /** Fret of the index finger. */
  position: number;
}

/** What is known about the way from one state of the hand to the next. */
export interface HandMoment {
  /** From the start of the one to the start of the other; null where unknown. */
  timeSec: Seconds | null;
  /** Whether strings that ring were heard to glide into it. */
  isGlide: boolean;
}

/** What it costs to spread the fingers further than they stand by themselves: by the ruler, and by frets. */
function stretchCost({ fingering, position }: HandState, scale: number, w: FingerWeights): number {
  if (fingering.stops.length === 0) return 0;
  const beyondMm = Math.max(0, fretDistanceMm(scale, position, fingering.highest) - w.comfortMm);
  const beyondFrets = Math.max(0, fingering.highest - position - fretsUnderHand(scale) + 1);
  return w.perStretchMm * beyondMm + w.perStretchFret * beyondFrets;
}

/**
 * The cost of holding a fingering, term by term; those of 0 left out.
 * @param agreement how the hand lies for the chord in force; null without one, or where the notes are not of it
 */
export function handTerms(
  state: HandState,
  scale: number,
  w: FingerWeights,
  agreement: Agreement | null = null,
): CostTerm[] {
  const { fingering } = state;
  const terms: CostTerm[] = [
    { name: "stretch", cost: stretchCost(state, scale, w) },
    { name: "fingers down", cost: w.perFinger * fingering.fingers },
    { name: "barre", cost: fingering.isBarre ? w.barre : 0 },
    { name: "neck span", cost: positionCost(state, w) },
    { name: "high frets", cost: w.perFretAboveHigh * Math.max(0, fingering.highest - w.highFret) },
    { name: "strings skipped", cost: w.perSkippedString * fingering.skippedStrings },
    { name: "chord in force", cost: chordCost(agreement, w) },
  ];
  return terms.filter(({ cost }) => cost !== 0);
}

function chordCost(agreement: Agreement | null, w: FingerWeights): number {
  if (agreement === "matched") return w.chordMatched;
  return agreement === "near" ? w.chordNearlyMatched : 0;
}

function positionCost({ fingering: { lowest }, position }: HandState, w: FingerWeights): number {
  return lowest === 0 ? 0 : w.perPositionFret * (lowest - 1) + w.perFretBehind * (lowest - position);
}

/** The cost of getting from one state of the hand to another, term by term; those of 0 left out. */
export function handMoveTerms(
  from: HandState,
  to: HandState,
  moment: HandMoment,
  w: FingerWeights,
): CostTerm[] {
  const isShapeKept = shapeMove(from.fingering, to.fingering) === to.position - from.position;
  const terms: CostTerm[] = [
    { name: "hand shift", cost: shiftCost(from.position, to.position, w) * haste(moment, w) },
    { name: "fingers moved", cost: w.perNewStop * newStops(from.fingering, to.fingering) },
    { name: "same shape", cost: isShapeKept ? w.sameShape : 0 },
    { name: "string crossing", cost: w.perCrossedString * crossedStrings(from.fingering, to.fingering) },
    { name: "glide heard", cost: moment.isGlide && slides(from.fingering, to.fingering) ? w.slideHeard : 0 },
  ];
  return terms.filter(({ cost }) => cost !== 0);
}

/** The part of {@link handMoveTerms} that is the same from and to every position: the search reckons it once for all. */
export function restringCost(from: Fingering, to: Fingering, isGlide: boolean, w: FingerWeights): number {
  const cost = w.perNewStop * newStops(from, to) + w.perCrossedString * crossedStrings(from, to);
  return isGlide && slides(from, to) ? cost + w.slideHeard : cost;
}

/** How far along the neck the same shape of two fingers or more moves, and null where the shape is another. */
export function shapeMove({ stops: before }: Fingering, { stops: now }: Fingering): number | null {
  const [first, there] = [before[0], now[0]];
  if (first === undefined || there === undefined || before.length < 2) return null;
  if (before.length !== now.length) return null;
  const along = there.fret - first.fret;
  const across = there.string - first.string;
  if (along === 0 && across === 0) return null;
  for (let at = 1; at < now.length; at += 1) {
    if (now[at]!.fret - before[at]!.fret !== along) return null;
    if (now[at]!.string - before[at]!.string !== across) return null;
  }
  return along;
}

/** Before haste is counted in. */
export function shiftCost(from: number, to: number, w: FingerWeights): number {
  return from === to ? 0 : w.shift + w.perShiftFret * Math.abs(to - from);
}

/** A slide that was heard took the time that it took: haste costs nothing extra there. */
export function haste({ timeSec, isGlide }: HandMoment, w: FingerWeights): number {
  if (timeSec === null) return 1;
  const most = isGlide ? 1 : w.mostTimeFactor;
  if (timeSec <= 0) return most;
  return Math.min(most, Math.max(w.leastTimeFactor, w.referenceSec / timeSec));
}

function newStops({ stops: before }: Fingering, { stops }: Fingering): number {
  let count = stops.length;
  for (const stop of stops) {
    for (const other of before) if (other.string === stop.string && other.fret === stop.fret) count -= 1;
  }
  return count;
}

function crossedStrings(from: Fingering, to: Fingering): number {
  return Math.max(0, to.firstString - from.lastString, from.firstString - to.lastString);
}

/** Whether a string that sounds in both is stopped at another fret: a finger slides, or is put down or taken off. */
function slides(from: Fingering, to: Fingering): boolean {
  return to.place.strings.some((string, at) => {
    const before = from.place.strings.indexOf(string);
    return before >= 0 && from.frets[before] !== to.frets[at];
  });
}
