import type { Copedent } from "@/lib/instrument/Copedent";
import { fretOn } from "@/lib/instrument/frets";
import { allStages, engagedStages, type Stage } from "@/lib/instrument/stages";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import type { FixedStages } from "./FixedStages";
import type { Neck } from "./neck";
import type { Placed } from "./Place";
import type { PartLocks, PlaceLocks } from "./PlaceLocks";
import { fretAt, type Spot } from "./Spot";

/** One thing that a person has settled, ready to be held to. */
export interface Lock {
  /** What is locked, in words, as in `the bar at fret 3`. */
  words: string;
  keeps(spot: Spot, notesMidi: readonly Midi[]): boolean;
  /** What it settles about feet and knees. */
  fixed?: FixedStages;
}

/** Locks for a part and for one of its events, which all hold at once. Throws `UnknownChangeError`. */
export function locksOf(neck: Neck, part: PartLocks = {}, event: PlaceLocks = {}): Lock[] {
  const { copedent } = neck;
  const own: Lock[] = [];
  if (event.place) own.push(onPlace(copedent, event.place));
  for (const { midi, string } of event.strings ?? []) own.push(onString(midi, string));
  if (event.fret !== undefined) own.push(onFrets({ from: event.fret, to: event.fret }));
  const both = [event, part].flatMap(({ changes, pedals, frets, grip }, at) => {
    const found: Lock[] = [];
    if (changes) found.push(onChanges(copedent, changes));
    if (pedals) found.push(onPedals(copedent, pedals));
    if (frets) found.push(onFrets(frets));
    if (grip) found.push(onGrip(grip));
    return at === 0 ? found : found.map((lock) => ({ ...lock, words: `${lock.words} for the whole part` }));
  });
  return [...own, ...both];
}

function onFrets({ from, to }: { from: number; to: number }): Lock {
  return {
    words: from === to ? `the bar at fret ${from}` : `frets ${from} to ${to}`,
    keeps: (spot) => spot.hold.strings.every((_, at) => fretAt(spot, at) >= from && fretAt(spot, at) <= to),
  };
}

function onGrip(grip: readonly number[]): Lock {
  const words = grip.length === 1 ? `string ${grip[0]} alone` : `strings ${grip.join(", ")}`;
  return { words, keeps: ({ hold }) => hold.strings.every((string) => grip.includes(string)) };
}

function onString(midi: Midi, string: number): Lock {
  return {
    words: `${midiToName(midi)} on string ${string}`,
    keeps: ({ hold }, notesMidi) =>
      hold.strings.some((each, at) => each === string && notesMidi[at] === midi),
  };
}

function onChanges(copedent: Copedent, ids: readonly string[]): Lock {
  const stages = engagedStages(copedent, ids);
  return {
    words:
      stages.length === 0 ? "no pedal or lever" : `just ${stages.map(({ id }) => id).join(" and ")} down`,
    keeps: ({ hold }) => sameStages(hold.set.stages, stages),
    fixed: justThese(stages),
  };
}

function onPedals(copedent: Copedent, state: "up" | "down"): Lock {
  const isPedal = ({ change: { slot } }: Stage) => slot.kind === "pedal";
  const all = allStages(copedent).filter(
    ({ change: { slot } }) => slot.kind === "pedal" && copedent.footRest.includes(slot.place),
  );
  const deepest = all.filter(({ change, depth }) => depth === change.stages.length);
  if (state === "down" && deepest.length === 0) {
    return {
      words: "pedals down, where the copedent does not say over which the foot rests",
      keeps: () => false,
    };
  }
  const stages = state === "up" ? [] : deepest;
  return {
    words: `pedals ${state}`,
    keeps: ({ hold }) => sameStages(hold.set.stages.filter(isPedal), stages),
    fixed: {
      stages,
      key: `pedals ${state}`,
      isWhole: false,
      isSettled: ({ slot }) => slot.kind === "pedal",
    },
  };
}

function onPlace(copedent: Copedent, place: Placed): Lock {
  const { strings } = place;
  const stages = engagedStages(copedent, place.changes);
  const pressed = stages.map(({ id }) => id).join(" and ");
  const sorted = [...strings].sort((a, b) => a - b);
  const where = `string${strings.length === 1 ? "" : "s"} ${sorted.join(", ")}`;
  const frets = sorted.map((string) => fretOn(place, string));
  const isStraight = frets.every((fret) => fret === frets[0]);
  const at = isStraight ? `fret ${frets[0]}` : `frets ${frets.join(", ")}`;
  return {
    words: `${where} at ${at} with ${pressed === "" ? "nothing" : pressed} pressed`,
    keeps: (spot) =>
      spot.hold.strings.length === strings.length &&
      spot.hold.strings.every(
        (string, at) => strings.includes(string) && fretAt(spot, at) === fretOn(place, string),
      ) &&
      sameStages(spot.hold.set.stages, stages),
    fixed: justThese(stages),
  };
}

function justThese(stages: readonly Stage[]): FixedStages {
  return {
    stages,
    key: `just ${stages.map(({ id }) => id).join(" ")}`,
    isWhole: true,
    isSettled: () => true,
  };
}

function sameStages(one: readonly Stage[], other: readonly Stage[]): boolean {
  return one.length === other.length && other.every(({ id }) => one.some((stage) => stage.id === id));
}
