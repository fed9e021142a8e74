import type { Seconds } from "@/lib/units/quantities";
import type { PlaceFacts } from "./facts";
import type { CostTerm, TermName } from "./Place";
import type { Weights } from "./weights";

/**
 * How notes were heard to come out of those before while they rang: one voice gliding against a held one
 * (a pedal or lever), or all alike (the bar).
 */
export type Glide = "oblique" | "parallel";

/** What is known about the way from one place to the next. */
export interface MoveMoment {
  /** From the start of the one to the start of the other; null where unknown. */
  timeSec: Seconds | null;
  glide: Glide | null;
}

type MoveTerm = (from: PlaceFacts, to: PlaceFacts, moment: MoveMoment, weights: Weights) => number;

/** Every cost of getting from one place to another, by name. */
const MOVE_TERMS: readonly [TermName, MoveTerm][] = [
  ["bar travel", barTravel],
  ["pedals and levers", changesMoved],
  ["foot move", footMove],
  ["grip change", gripChange],
  ["glide heard", glideHeard],
];

function barTravel(from: PlaceFacts, to: PlaceFacts, moment: MoveMoment, w: Weights): number {
  const frets = Math.abs(to.place.fret - from.place.fret);
  if (frets === 0) return 0;
  const distance =
    w.barPerFret * Math.min(frets, w.nearFrets) + w.barPerFarFret * Math.max(0, frets - w.nearFrets);
  const direction = to.place.fret < from.place.fret ? w.downFactor : 1;
  return distance * direction * timeFactor(moment, w);
}

/** A slide that was heard took the time that it took: haste costs nothing extra there. */
function timeFactor({ timeSec, glide }: MoveMoment, w: Weights): number {
  if (timeSec === null) return 1;
  const most = glide === "parallel" ? 1 : w.mostTimeFactor;
  if (timeSec <= 0) return most;
  return Math.min(most, Math.max(w.leastTimeFactor, w.referenceSec / timeSec));
}

function changesMoved(from: PlaceFacts, to: PlaceFacts, { glide }: MoveMoment, w: Weights): number {
  const each = glide === null ? w.perChange : w.perGlidingChange;
  let cost = 0;
  let pedals = 0;
  for (let change = 0; change < to.held.depths.length; change += 1) {
    const before = from.held.depths[change] ?? 0;
    const now = to.held.depths[change] ?? 0;
    if (before === now) continue;
    if (now === 0 && !to.disturbs[change]) cost += w.perIdleChange;
    else if (to.isPedal[change]) pedals += 1;
    else cost += each;
  }
  return pedals === 0 ? cost : cost + each + w.perFurtherPedal * (pedals - 1);
}

/** The foot must move when no pair of neighbouring pedals covers what it held and what it shall hold. */
function footMove(from: PlaceFacts, to: PlaceFacts, _: MoveMoment, w: Weights): number {
  if (from.pedals.length === 0 || to.pedals.length === 0) return 0;
  const lowest = Math.min(...from.pedals, ...to.pedals);
  const highest = Math.max(...from.pedals, ...to.pedals);
  return highest - lowest > 1 ? w.footMove : 0;
}

function gripChange(from: PlaceFacts, to: PlaceFacts, _: MoveMoment, w: Weights): number {
  const within =
    (to.firstString >= from.firstString && to.lastString <= from.lastString) ||
    (from.firstString >= to.firstString && from.lastString <= to.lastString);
  if (within) return 0;
  const shift = Math.max(
    Math.abs(to.firstString - from.firstString),
    Math.abs(to.lastString - from.lastString),
  );
  return shift <= 2 ? w.nextGrip : w.otherGrip;
}

function glideHeard(from: PlaceFacts, to: PlaceFacts, { glide }: MoveMoment, w: Weights): number {
  if (glide === null) return 0;
  // Other strings may be stopped or picked at the same moment: those that sound on both sides tell.
  if (!isWithin(from.place.strings, to.place.strings) && !isWithin(to.place.strings, from.place.strings))
    return 0;
  const sameFret = from.place.fret === to.place.fret;
  const sameChanges = from.held.depths.every((depth, change) => depth === to.held.depths[change]);
  if (glide === "oblique") return sameFret && !sameChanges ? w.obliqueGlide : 0;
  return !sameFret && sameChanges ? w.parallelGlide : 0;
}

function isWithin(few: readonly number[], many: readonly number[]): boolean {
  return few.every((string) => many.includes(string));
}

/** The cost of a move, term by term; terms that are 0 are left out. */
export function moveTerms(
  from: PlaceFacts,
  to: PlaceFacts,
  moment: MoveMoment,
  weights: Weights,
): CostTerm[] {
  return MOVE_TERMS.map(([name, term]) => ({ name, cost: term(from, to, moment, weights) })).filter(
    ({ cost }) => cost !== 0,
  );
}

/** Sum of {@link moveTerms}; called for every pair of neighbouring candidates, so it makes no objects. */
export function moveCost(from: PlaceFacts, to: PlaceFacts, moment: MoveMoment, weights: Weights): number {
  let sum = 0;
  for (const [, term] of MOVE_TERMS) sum += term(from, to, moment, weights);
  return sum;
}
