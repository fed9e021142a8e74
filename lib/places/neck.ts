import type { Copedent } from "@/lib/instrument/Copedent";
import { stringOffset } from "@/lib/instrument/effectivePitch";
import { holdableSets } from "@/lib/instrument/holdable";
import type { Stage, StageId } from "@/lib/instrument/stages";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";

/** One set of stages that feet and knees can hold, and what the open strings become under it. */
export interface HeldSet {
  stages: readonly Stage[];
  ids: readonly StageId[];
  /** How deep each change is engaged, 0 = off; as long as the copedent's `changes`. */
  depths: readonly number[];
  /** Open pitch by string number under this set; strings without a dependable pitch are missing. */
  openMidi: ReadonlyMap<number, Midi>;
  /** Pitch classes of the grip strings at fret 0, bit 0 = C. */
  chordMask: number;
}

/** A copedent made ready for searching: every holdable set, fewest changes first. */
export interface Neck {
  copedent: Copedent;
  sets: readonly HeldSet[];
}

/** Necks that were laid out before: it takes some milliseconds, and a copedent is data that never changes. */
const necks = new WeakMap<Copedent, Neck>();

/** Lays out every set of changes that feet and knees can hold (E9: 288). */
export function layOutNeck(copedent: Copedent): Neck {
  const known = necks.get(copedent) ?? makeNeck(copedent);
  necks.set(copedent, known);
  return known;
}

function makeNeck(copedent: Copedent): Neck {
  const sets = holdableSets(copedent).map((stages) => describeSet(copedent, stages));
  return { copedent, sets: sets.sort((a, b) => a.stages.length - b.stages.length) };
}

/** Facts of one set of stages, holdable or not. */
export function describeSet(copedent: Copedent, stages: readonly Stage[]): HeldSet {
  const openMidi = new Map<number, Midi>();
  for (const string of copedent.strings) {
    const offset = stringOffset(copedent, string.number, stages);
    if (offset !== null) openMidi.set(string.number, string.openMidi + offset);
  }
  let chordMask = 0;
  for (const string of new Set(copedent.grips.flat())) {
    const open = openMidi.get(string);
    if (open !== undefined) chordMask |= 1 << midiToPitchClass(open);
  }
  return {
    stages,
    ids: stages.map((stage) => stage.id),
    depths: copedent.changes.map((change) => stages.find((stage) => stage.change === change)?.depth ?? 0),
    openMidi,
    chordMask,
  };
}

/** Whether every change of `inner` is engaged at least as deep in `outer`. */
export function holdsWithin(inner: HeldSet, outer: HeldSet): boolean {
  return inner.depths.every((depth, change) => depth <= (outer.depths[change] ?? 0));
}
