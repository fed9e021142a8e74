import type { Slot } from "@/lib/instrument/Copedent";
import type { Stage } from "@/lib/instrument/stages";

/**
 * What no player can do, whatever the cost. Sources: left foot and pedals pedalsteel.com tea/ank/ankle.html and
 * bb.steelguitarforum.com t=27563; picks playpedalsteel.com practice-tips. Spread of the hand: local proposal.
 */
export const HARD_LIMITS = {
  /** Thumb, index and middle finger; a fourth string where the player picks with the ring finger too. */
  stringsPerPick: 3,
  stringsPerPickWithRing: 4,
  /** Distance between the outer strings of one pick, as a difference of string numbers. */
  stringSpan: 7,
  /** One foot presses one pedal or two neighbours. */
  pedalsAtOnce: 2,
} as const;

/** Whether one hand can pick these strings at once: not too many, each once, not too far apart. */
export function handCanPick(
  strings: readonly number[],
  maxStrings: number = HARD_LIMITS.stringsPerPick,
): boolean {
  if (strings.length === 0 || strings.length > maxStrings) return false;
  if (new Set(strings).size !== strings.length) return false;
  return Math.max(...strings) - Math.min(...strings) <= HARD_LIMITS.stringSpan;
}

/**
 * Whether left foot and knees can hold these stages together: at most two pedals, and those neighbours; a knee goes left
 * or right, never both, and may be lifted with either (common practice, no source: with a lever it is awkward, not
 * impossible); one stage of each change; one string pulled by hand. Locks hold themselves.
 */
export function feetAndKneesCanHold(stages: readonly Stage[]): boolean {
  const pedals: number[] = [];
  const taken = new Set<string>();
  for (const { change } of stages) {
    if (taken.has(`change ${change.id}`)) return false;
    taken.add(`change ${change.id}`);
    const limb = limbOf(change.slot);
    if (change.slot.kind === "pedal") pedals.push(change.slot.place);
    if (limb === null) continue;
    if (taken.has(limb)) return false;
    taken.add(limb);
  }
  if (pedals.length > HARD_LIMITS.pedalsAtOnce) return false;
  return pedals.length < 2 || Math.max(...pedals) - Math.min(...pedals) === 1;
}

/** What is used up by working a change there; null where several can be worked at once. */
function limbOf(slot: Slot): string | null {
  if (slot.kind === "hand") return "hand";
  if (slot.kind !== "knee") return null;
  return slot.throw === "up" ? `${slot.knee} knee up` : `${slot.knee} knee`;
}
