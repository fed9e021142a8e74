import type { Change, Copedent, Slot } from "@/lib/instrument/Copedent";
import { chordStrings } from "@/lib/instrument/combinationChord";
import { stringOffset } from "@/lib/instrument/effectivePitch";
import { holdableSets } from "@/lib/instrument/holdable";
import { openHome } from "@/lib/instrument/openHome";
import { allStages, type Stage, type StageId } from "@/lib/instrument/stages";
import { parsePitchName } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Semitones } from "@/lib/units/quantities";

/** What is the same in every set of a neck. */
export interface NeckFacts {
  /** What works each change of the copedent. */
  kinds: readonly Slot["kind"][];
  /** Pitch classes of the tonics in whose keys open strings are at home, bit 0 = C. */
  openTonicMask: number;
}

/** One set of stages, and what the strings become under it. */
export interface HeldSet {
  /** Counts the sets of a neck in the order in which they were asked for, from 0. */
  id: number;
  stages: readonly Stage[];
  ids: readonly StageId[];
  /** How deep each change is engaged, 0 = off; as long as the copedent's `changes`. */
  depths: readonly number[];
  neck: NeckFacts;
  /** How far each string stands from its open pitch, in the copedent's order; null: no dependable pitch. */
  offsets: readonly (Semitones | null)[];
  /** Pitch classes of the grip strings at fret 0, bit 0 = C. */
  chordMask: number;
  /** Places of the engaged pedals; empty when the foot is up. */
  pedals: readonly number[];
  /** The leftmost and the rightmost of them; without any, infinite and minus infinite. */
  lowestPedal: number;
  highestPedal: number;
  /** Whether a pedal is engaged over which the foot does not rest. */
  footOffRest: boolean;
  /** Whether a change of several stages stands at an earlier one than its last. */
  halfStop: boolean;
  /** Left knee to the left with the foot on the third pedal or beyond. */
  farLever: boolean;
}

/**
 * Far more sets than that are a chart of many locks; a position's own chord is then looked for among the first ones
 * only, those of the fewest changes of the chart's beginning.
 */
const MOST_SETS = 20_000;

/** A copedent made ready for searching. What was worked out once is kept. */
export class Neck {
  private readonly described = new Map<string, HeldSet>();
  private held: HeldSet[] | null = null;
  private readonly indexes: ReadonlyMap<number, number>;
  /** Strings that carry the chord of a position, by index. */
  private readonly chordIndexes: readonly number[];
  /** For each change and each string, both in the copedent's order, whether the change has a hand in its pitch. */
  private readonly reaches: readonly (readonly boolean[])[];
  private readonly facts: NeckFacts;

  constructor(readonly copedent: Copedent) {
    this.facts = {
      kinds: copedent.changes.map(({ slot }) => slot.kind),
      openTonicMask: openTonicMaskOf(copedent),
    };
    this.reaches = copedent.changes.map((change) => {
      const tuned = copedent.combinations.filter(({ stages }) => stages.some((id) => isStageOf(change, id)));
      return copedent.strings.map(
        ({ number }) =>
          change.stages.some((pulls) => (pulls[number] ?? 0) !== 0) ||
          tuned.some(({ string }) => string === number),
      );
    });
    this.indexes = new Map(copedent.strings.map(({ number }, index) => [number, index]));
    this.chordIndexes = chordStrings(copedent).map((string) => this.indexOf(string));
  }

  /** Every set that feet and knees can hold, fewest changes first (E9: 288). */
  get sets(): readonly HeldSet[] {
    this.held ??= holdableSets(this.copedent, MOST_SETS)
      .map((stages) => this.describe(stages))
      .sort((a, b) => a.stages.length - b.stages.length);
    return this.held;
  }

  /** Where a string stands in the copedent's list; -1 where the instrument has none of that number. */
  indexOf(string: number): number {
    return this.indexes.get(string) ?? -1;
  }

  /** Whether a change moves one of those strings, by itself or in a tuned combination; both by index. */
  moves(change: number, strings: readonly number[]): boolean {
    const reach = this.reaches[change]!;
    return strings.some((string) => reach[string]);
  }

  /** Facts of one set of stages, holdable or not; in the copedent's order. */
  describe(stages: readonly Stage[]): HeldSet {
    const key = stages.map(({ id }) => id).join(" ");
    const known = this.described.get(key);
    if (known !== undefined) return known;
    const set = this.describeSet(stages);
    this.described.set(key, set);
    return set;
  }

  private describeSet(stages: readonly Stage[]): HeldSet {
    const { copedent, chordIndexes } = this;
    const offsets = copedent.strings.map(({ number }) => stringOffset(copedent, number, stages));
    let chordMask = 0;
    for (const index of chordIndexes) {
      const offset = offsets[index] ?? null;
      if (offset !== null) chordMask |= 1 << midiToPitchClass(copedent.strings[index]!.openMidi + offset);
    }
    const pedals = stages.flatMap(({ change: { slot } }) => (slot.kind === "pedal" ? [slot.place] : []));
    const { footRest } = copedent;
    return {
      id: this.described.size,
      neck: this.facts,
      stages,
      ids: stages.map((stage) => stage.id),
      depths: copedent.changes.map((change) => stages.find((stage) => stage.change === change)?.depth ?? 0),
      offsets,
      chordMask,
      pedals,
      lowestPedal: Math.min(...pedals),
      highestPedal: Math.max(...pedals),
      footOffRest: footRest.length > 0 && pedals.some((pedal) => !footRest.includes(pedal)),
      halfStop: stages.some(({ change, depth }) => depth < change.stages.length),
      farLever: Math.max(0, ...pedals) >= 3 && stages.some(isLeftKneeLeft),
    };
  }
}

/** Necks that were laid out before: a copedent is data that never changes. */
const necks = new WeakMap<Copedent, Neck>();

/** The neck of a copedent, one for each. */
export function layOutNeck(copedent: Copedent): Neck {
  const known = necks.get(copedent) ?? new Neck(copedent);
  necks.set(copedent, known);
  return known;
}

function isStageOf(change: Change, id: StageId): boolean {
  return allStages({ changes: [change] }).some((stage) => stage.id === id);
}

function isLeftKneeLeft({ change: { slot } }: Stage): boolean {
  return slot.kind === "knee" && slot.knee === "left" && slot.throw === "left";
}

/** Whether every change of `inner` is engaged at least as deep in `outer`. */
export function holdsWithin(inner: HeldSet, outer: HeldSet): boolean {
  return inner.depths.every((depth, change) => depth <= (outer.depths[change] ?? 0));
}

/**
 * On E9 open strings are played in E, the chord that they give, and in A, which the pedals make of it
 * (steelguitarforum.com t=111468); by analogy on other pedal steels, and without pedals in the open chord's key alone.
 */
function openTonicMaskOf(copedent: Copedent): number {
  const home = openHome(copedent);
  if (home === null) return 0;
  const { pitchClass } = parsePitchName(home.tonic);
  const fourth = copedent.changes.length > 0 ? 1 << ((pitchClass + 5) % 12) : 0;
  return (1 << pitchClass) | fourth;
}
