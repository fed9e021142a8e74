import type { Hold } from "./Hold";
import type { HeldSet, Neck } from "./neck";

/** The holds of one neck, each described once. */
export class HoldBook {
  private readonly holds = new Map<string, Hold>();
  private readonly feet = new Map<string, number>();

  constructor(private readonly neck: Neck) {}

  /**
   * @param strings of the instrument, in the order of their notes, those picked first
   * @param pickedCount how many are picked; all by default
   */
  hold(strings: readonly number[], set: HeldSet, pickedCount = strings.length): Hold {
    const key = `${set.id} ${pickedCount} ${strings.join()}`;
    const known = this.holds.get(key);
    if (known !== undefined) return known;
    const hold = this.describe(strings, set, pickedCount);
    this.holds.set(key, hold);
    return hold;
  }

  private describe(strings: readonly number[], set: HeldSet, pickedCount: number): Hold {
    const { copedent } = this.neck;
    const picked = strings.slice(0, pickedCount);
    const underHand = picked.length > 0 ? picked : strings;
    const open = (string: number) => {
      const index = this.neck.indexOf(string);
      return (copedent.strings[index]?.openMidi ?? 0) + (set.offsets[index] ?? 0);
    };
    const pitches = [...picked].sort((a, b) => a - b).map(open);
    const splitStrings = strings.filter((string) => {
      const pulls = set.stages.map((stage) => stage.pulls[string] ?? 0);
      return Math.max(0, ...pulls) > 0 && Math.min(0, ...pulls) < 0;
    });
    const indexes = strings.map((string) => this.neck.indexOf(string));
    const disturbs = copedent.changes.map((_, change) => this.neck.moves(change, indexes));
    return {
      id: this.holds.size,
      strings,
      pickedCount,
      set,
      offsets: indexes.map((index) => set.offsets[index] ?? 0),
      disturbs,
      feetId: this.feetIdOf(`${set.id} ${disturbs.map(Number).join("")}`),
      firstString: Math.min(...underHand),
      lastString: Math.max(...underHand),
      splitStrings: splitStrings.length,
      usualGrip: isUsualGrip(picked, pitches, copedent.grips),
      crossed: pitches.some((pitch, index) => index > 0 && pitch > (pitches[index - 1] ?? pitch)),
    };
  }

  private feetIdOf(key: string): number {
    const known = this.feet.get(key) ?? this.feet.size;
    this.feet.set(key, known);
    return known;
  }
}

const books = new WeakMap<Neck, HoldBook>();

/** The holds of a neck, one book for each. */
export function holdsOf(neck: Neck): HoldBook {
  const known = books.get(neck) ?? new HoldBook(neck);
  books.set(neck, known);
  return known;
}

function isUsualGrip(
  strings: readonly number[],
  pitches: readonly number[],
  grips: readonly (readonly number[])[],
): boolean {
  if (strings.length < 2 || grips.length === 0) return true;
  if (strings.length === 2 && Math.abs((pitches[0] ?? 0) - (pitches[1] ?? 0)) === 12) return true;
  return grips.some((grip) => strings.every((string) => grip.includes(string)));
}
