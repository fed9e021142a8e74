import { stringOffset } from "@/lib/instrument/effectivePitch";
import { feetAndKneesCanHold } from "@/lib/instrument/holdable";
import { allStages, type Stage } from "@/lib/instrument/stages";
import type { Semitones } from "@/lib/units/quantities";
import type { FixedStages } from "./FixedStages";
import type { Hold } from "./Hold";
import { type HoldBook, holdsOf } from "./holdBook";
import type { HeldSet, Neck } from "./neck";

/** Offsets of strings, in their order, with the sets that give them. */
type SetsByOffsets = ReadonlyMap<string, readonly HeldSet[]>;

/**
 * Answers which sets of changes move given strings by given steps: sets that feet and knees can hold, and of which none
 * but what is fixed could be left out. A change is one too many where the strings come to the same without it. Where they do
 * so at a half stop and all the way, both are found: one is held with care, the other rests on its stop. Whatever was
 * asked once is kept, so a chord in another key costs nothing more.
 */
export class HoldFinder {
  private readonly byStrings = new Map<string, SetsByOffsets>();
  private readonly found = new Map<string | number, readonly Hold[]>();
  private readonly single: (readonly Semitones[])[] = [];
  private readonly book: HoldBook;

  constructor(
    private readonly neck: Neck,
    private readonly fixed: FixedStages,
  ) {
    this.book = holdsOf(neck);
  }

  /** The steps that one string can be moved by. @param index of the string in the copedent's list */
  offsetsOf(index: number): readonly Semitones[] {
    this.single[index] ??= [...this.setsOn([index]).keys()].map(Number).sort((a, b) => a - b);
    return this.single[index];
  }

  /**
   * @param indexes of different strings in the copedent's list, in the order of their notes
   * @param offsets one for each
   */
  find(indexes: readonly number[], offsets: readonly Semitones[], pickedCount: number): readonly Hold[] {
    const key =
      shortKey(indexes, offsets, pickedCount) ?? `${pickedCount} ${indexes.join()} ${offsets.join()}`;
    const known = this.found.get(key);
    if (known !== undefined) return known;
    const order = indexes.map((_, at) => at).sort((a, b) => indexes[a]! - indexes[b]!);
    const sets = this.setsOn(order.map((at) => indexes[at]!)).get(order.map((at) => offsets[at]!).join());
    const strings = indexes.map((index) => this.neck.copedent.strings[index]!.number);
    const holds = (sets ?? []).map((set) => this.book.hold(strings, set, pickedCount));
    this.found.set(key, holds);
    return holds;
  }

  /** @param indexes ascending */
  private setsOn(indexes: readonly number[]): SetsByOffsets {
    const key = indexes.join();
    const known = this.byStrings.get(key) ?? this.searchOn(indexes);
    this.byStrings.set(key, known);
    return known;
  }

  private searchOn(indexes: readonly number[]): SetsByOffsets {
    const { copedent } = this.neck;
    const { fixed } = this;
    const stages = allStages(copedent);
    const free = copedent.changes.flatMap((change, index) =>
      fixed.isSettled(change) || !this.neck.moves(index, indexes)
        ? []
        : [stages.filter((stage) => stage.change === change)],
    );
    const found = new Map<string, HeldSet[]>();
    const inOrder = (held: readonly Stage[]) =>
      stages.filter((stage) => held.some(({ id }) => id === stage.id));
    const visit = (at: number, held: readonly Stage[]): void => {
      const own = free[at];
      if (own === undefined) {
        const offsets = this.offsetsUnder(held, indexes);
        if (offsets === null || !this.isNeeded(held, offsets, indexes)) return;
        const same = found.get(offsets) ?? [];
        same.push(this.neck.describe(inOrder(held)));
        found.set(offsets, same);
        return;
      }
      visit(at + 1, held);
      for (const stage of own) {
        const more = [...held, stage];
        if (feetAndKneesCanHold(more)) visit(at + 1, more);
      }
    };
    if (feetAndKneesCanHold(fixed.stages)) visit(0, fixed.stages);
    return found;
  }

  /** Whether the strings would come to something else without any one of the changes that are not fixed. */
  private isNeeded(held: readonly Stage[], offsets: string, indexes: readonly number[]): boolean {
    return held
      .filter((stage) => !this.fixed.stages.includes(stage))
      .every((stage) => {
        const without = held.filter((other) => other !== stage);
        return this.offsetsUnder(without, indexes) !== offsets;
      });
  }

  /** Null where one of the strings has no dependable pitch. */
  private offsetsUnder(held: readonly Stage[], indexes: readonly number[]): string | null {
    let key = "";
    for (const index of indexes) {
      const offset = stringOffset(this.neck.copedent, this.neck.copedent.strings[index]!.number, held);
      if (offset === null) return null;
      key += key === "" ? offset : `,${offset}`;
    }
    return key;
  }
}

/** A number that stands for strings and offsets, much quicker to look up than words; null where they are too many for one. */
function shortKey(
  indexes: readonly number[],
  offsets: readonly Semitones[],
  pickedCount: number,
): number | null {
  if (indexes.length > 4) return null;
  let key = pickedCount * 8 + indexes.length;
  for (let at = 0; at < indexes.length; at += 1) {
    const [index, offset] = [indexes[at]!, offsets[at]!];
    if (index >= 32 || offset < -16 || offset > 15) return null;
    key = key * 1024 + index * 32 + offset + 16;
  }
  return key;
}

const finders = new WeakMap<Neck, Map<string, HoldFinder>>();

/** The finder of a neck under what is fixed, one for each. */
export function finderFor(neck: Neck, fixed: FixedStages): HoldFinder {
  const ofNeck = finders.get(neck) ?? new Map<string, HoldFinder>();
  finders.set(neck, ofNeck);
  const known = ofNeck.get(fixed.key) ?? new HoldFinder(neck, fixed);
  ofNeck.set(fixed.key, known);
  return known;
}
