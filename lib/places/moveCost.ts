import type { Seconds } from "@/lib/units/quantities";
import { type Glide, glideActOf } from "./glideActs";
import type { Hold } from "./Hold";
import type { HeldSet } from "./neck";
import type { CostTerm } from "./Place";
import type { Spot } from "./Spot";
import type { Weights } from "./weights";

/** What is known about the way from one place to the next. */
export interface MoveMoment {
  /** From the start of the one to the start of the other; null where unknown. */
  timeSec: Seconds | null;
  glide: Glide | null;
}

/** The bar's way, before haste is counted in. */
export function barTravel(fromFret: number, toFret: number, w: Weights): number {
  const frets = Math.abs(toFret - fromFret);
  const distance =
    w.barPerFret * Math.min(frets, w.nearFrets) + w.barPerFarFret * Math.max(0, frets - w.nearFrets);
  return toFret < fromFret ? distance * w.downFactor : distance;
}

/** A slide that was heard took the time that it took: haste costs nothing extra there. */
export function hasteFactor({ timeSec, glide }: MoveMoment, w: Weights): number {
  if (timeSec === null) return 1;
  const most = glide === "parallel" ? 1 : w.mostTimeFactor;
  if (timeSec <= 0) return most;
  return Math.min(most, Math.max(w.leastTimeFactor, w.referenceSec / timeSec));
}

/** Pedals and levers pressed, let off or taken to another stage; locks thrown. */
export function changesMoved(from: HeldSet, to: Hold, isGlide: boolean, w: Weights): number {
  const press = isGlide ? w.perGlidingChange : w.perChange;
  const release = isGlide ? w.perGlidingChange : w.perRelease;
  const { depths, neck } = to.set;
  let cost = 0;
  let pedals = 0;
  let dearest = 0;
  for (let change = 0; change < depths.length; change += 1) {
    const [before, now] = [from.depths[change]!, depths[change]!];
    if (before === now) continue;
    const each = now === 0 ? release : press;
    if (neck.kinds[change] === "lock") cost += w.perLock;
    else if (now === 0 && !to.disturbs[change]) cost += w.perIdleChange;
    else if (neck.kinds[change] === "pedal") {
      pedals += 1;
      if (each > dearest) dearest = each;
    } else cost += each;
  }
  return pedals === 0 ? cost : cost + dearest + w.perFurtherPedal * (pedals - 1);
}

/** The foot must move when no pair of neighbouring pedals covers what it held and what it shall hold. */
export function footMove(from: HeldSet, to: HeldSet, w: Weights): number {
  if (from.pedals.length === 0 || to.pedals.length === 0) return 0;
  const lowest = Math.min(from.lowestPedal, to.lowestPedal);
  const highest = Math.max(from.highestPedal, to.highestPedal);
  return highest - lowest > 1 ? w.footMove : 0;
}

/** Strings under the picking hand, as their outermost numbers. */
export type HandSpan = Pick<Hold, "firstString" | "lastString">;

export function gripChange(from: HandSpan, to: HandSpan, w: Weights): number {
  const within =
    (to.firstString >= from.firstString && to.lastString <= from.lastString) ||
    (from.firstString >= to.firstString && from.lastString <= to.lastString);
  if (within) return 0;
  const shift = Math.max(
    Math.abs(to.firstString - from.firstString),
    Math.abs(to.lastString - from.lastString),
  );
  const both = Math.max(from.lastString, to.lastString) - Math.min(from.firstString, to.firstString) + 1;
  return shift <= 2 || both <= w.handStrings ? w.nextGrip : w.otherGrip;
}

/** What speaks for a move that explains the glide that was heard; never above 0. */
export function glideHeard(from: Spot, to: Spot, glide: Glide | null, w: Weights): number {
  if (glide === null) return 0;
  const act = glideActOf(from, to);
  if (act === null || act === "stay") return 0;
  if (glide === "parallel") return act === "slide" ? w.parallelGlide : 0;
  if (act === "slide") return 0;
  // Where bar and feet move at once, one voice may be held by their making up for one another.
  return act.startsWith("slide") ? w.slideWithChange : w.obliqueGlide;
}

/** The cost of a move, term by term; terms that are 0 are left out. */
export function moveTerms(from: Spot, to: Spot, moment: MoveMoment, w: Weights): CostTerm[] {
  const { glide } = moment;
  const terms: CostTerm[] = [
    { name: "bar travel", cost: barTravel(from.fret, to.fret, w) * hasteFactor(moment, w) },
    { name: "pedals and levers", cost: changesMoved(from.hold.set, to.hold, glide !== null, w) },
    { name: "foot move", cost: footMove(from.hold.set, to.hold.set, w) },
    { name: "grip change", cost: gripChange(from.hold, to.hold, w) },
    { name: "glide heard", cost: glideHeard(from, to, glide, w) },
  ];
  return terms.filter(({ cost }) => cost !== 0);
}

/** Sum of {@link moveTerms}. */
export function moveCost(from: Spot, to: Spot, moment: MoveMoment, w: Weights): number {
  return moveTerms(from, to, moment, w).reduce((sum, { cost }) => sum + cost, 0);
}
