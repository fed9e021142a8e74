import type { Change, Copedent, Slot } from "./Copedent";
import { allStages, type Stage } from "./stages";

/** One foot presses one pedal or two neighbours: pedalsteel.com tea/ank/ankle.html, bb.steelguitarforum.com t=27563. */
const PEDALS_AT_ONCE = 2;

/**
 * Whether left foot and knees can hold these stages together: at most two pedals, and those neighbours; a knee goes left
 * or right, never both, and may be lifted with either (common practice, no source: with a lever it is awkward, not
 * impossible); one stage of each change; one string pulled by hand. Locks hold themselves.
 */
export function feetAndKneesCanHold(stages: readonly Stage[]): boolean {
  const pedals: number[] = [];
  const taken = new Set<Change | string>();
  for (const { change } of stages) {
    const limb = limbOf(change.slot);
    if (taken.has(change) || (limb !== null && taken.has(limb))) return false;
    taken.add(change);
    if (limb !== null) taken.add(limb);
    if (change.slot.kind === "pedal") pedals.push(change.slot.place);
  }
  if (pedals.length > PEDALS_AT_ONCE) return false;
  return pedals.length < 2 || Math.max(...pedals) - Math.min(...pedals) === 1;
}

/** What is used up by working a change there; null where several can be worked at once. */
function limbOf(slot: Slot): string | null {
  if (slot.kind === "hand") return "hand";
  if (slot.kind !== "knee") return null;
  return slot.throw === "up" ? `${slot.knee} knee up` : `${slot.knee} knee`;
}

/**
 * Every set of stages that feet and knees can hold together, the empty one among them.
 * @param most stops as soon as there are more than that; what has been found until then is not every one
 */
export function holdableSets(copedent: Copedent, most = Number.POSITIVE_INFINITY): Stage[][] {
  const stages = allStages(copedent);
  let found: Stage[][] = [[]];
  for (const change of copedent.changes) {
    const own = stages.filter((stage) => stage.change === change);
    const joined = found.flatMap((held) => own.map((stage) => [...held, stage]));
    found = [...found, ...joined.filter(feetAndKneesCanHold)];
    if (found.length > most) return found;
  }
  return found;
}
