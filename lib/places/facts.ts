import type { Slot } from "@/lib/instrument/Copedent";
import { engagedStages } from "@/lib/instrument/stages";
import { describeSet, type HeldSet, type Neck } from "./neck";
import type { Placed } from "./Place";

/** What the costs ask about a place, worked out once. */
export interface PlaceFacts<P extends Placed = Placed> {
  place: P;
  held: HeldSet;
  /** Places of the engaged pedals, from the left; empty when the foot is up. */
  pedals: readonly number[];
  /** Whether a pedal is engaged over which the foot does not rest. */
  footOffRest: boolean;
  /** For each change of the copedent: whether one of its stages pulls a string that sounds here. */
  disturbs: readonly boolean[];
  /** For each change of the copedent: whether a foot works it. */
  isPedal: readonly boolean[];
  /** Lowest and highest string number under the picking hand; of all that sound where nothing is picked. */
  firstString: number;
  lastString: number;
  /** Strings that a raise and a lower pull at once. */
  splitStrings: number;
  /** Whether a change of several stages stands at an earlier one than its last. */
  halfStop: boolean;
  /** Left knee to the left with the foot on the third pedal or beyond. */
  farLever: boolean;
  /** Whether the strings picked lie in one usual grip, or are a single string or an octave pair. */
  usualGrip: boolean;
  /** Whether some string picked nearer the player sounds higher than one picked further away. */
  crossed: boolean;
}

/**
 * Works out the facts of a place. Throws `UnknownChangeError` where the copedent lacks a change of it.
 * @param picked those of its strings that are picked; the others sound already
 */
export function factsOf<P extends Placed>(
  neck: Neck,
  place: P,
  picked: readonly number[] = place.strings,
): PlaceFacts<P> {
  const { copedent } = neck;
  const stages = engagedStages(copedent, place.changes);
  const held = describeSet(copedent, stages);
  const { strings } = place;
  const pedals = stages.flatMap(({ change: { slot } }) => (slot.kind === "pedal" ? [slot.place] : []));
  const pitches = [...picked].sort((a, b) => a - b).map((string) => held.openMidi.get(string) ?? 0);
  const underHand = picked.length > 0 ? picked : strings;
  const splitStrings = strings.filter((string) => {
    const pulls = stages.map((stage) => stage.pulls[string] ?? 0);
    return Math.max(0, ...pulls) > 0 && Math.min(0, ...pulls) < 0;
  });
  return {
    place,
    held,
    pedals,
    footOffRest: pedals.some((pedal) => !copedent.footRest.includes(pedal)),
    disturbs: copedent.changes.map((change) =>
      change.stages.some((pulls) => strings.some((string) => (pulls[string] ?? 0) !== 0)),
    ),
    isPedal: copedent.changes.map(({ slot }) => slot.kind === "pedal"),
    firstString: Math.min(...underHand),
    lastString: Math.max(...underHand),
    splitStrings: splitStrings.length,
    halfStop: stages.some(({ change, depth }) => depth < change.stages.length),
    farLever: Math.max(0, ...pedals) >= 3 && stages.some(({ change }) => isLeftKneeLeft(change.slot)),
    usualGrip: isUsualGrip(picked, pitches, copedent.grips),
    crossed: pitches.some((pitch, index) => index > 0 && pitch > (pitches[index - 1] ?? pitch)),
  };
}

function isLeftKneeLeft(slot: Slot): boolean {
  return slot.kind === "knee" && slot.knee === "left" && slot.throw === "left";
}

function isUsualGrip(
  strings: readonly number[],
  pitches: readonly number[],
  grips: readonly (readonly number[])[],
): boolean {
  if (strings.length < 2) return true;
  if (strings.length === 2 && Math.abs((pitches[0] ?? 0) - (pitches[1] ?? 0)) === 12) return true;
  return grips.some((grip) => strings.every((string) => grip.includes(string)));
}
