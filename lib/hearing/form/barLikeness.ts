import type { PitchClass } from "@/lib/units/quantities";
import { type BarChords, CHORD_CLASSES, transposedClass } from "./barChords";
import { FORM } from "./parameters";

/**
 * How much each bar is like each earlier bar, at each transposition: self-similarity of bars under all twelve of them
 * (M. Mueller and M. Clausen, "Transposition-invariant self-similarity matrices", ISMIR 2007). Two bars are compared
 * by the likelihood ratio of the same chords, slot by slot, to chords drawn by how common they are in the record, so
 * that a rare chord in common says more.
 */
export class BarLikeness {
  /** Bars of the record. */
  readonly count: number;
  /** Sums down the diagonals, from their beginnings to each pair of bars, for each transposition. */
  private readonly sums: Float32Array;

  constructor({ chances, common, slots }: BarChords) {
    this.count = chances.length;
    this.sums = new Float32Array(6 * this.count * (this.count + 1));
    const nats = new Float64Array(12);
    let own = 0;
    for (let later = 0; later < this.count; later++) {
      for (let earlier = 0; earlier <= later; earlier++) {
        compare(chances[later]!, chances[earlier]!, common, slots, nats);
        this.sums.set(nats, this.place(later, earlier));
      }
      own += nats[0]! / this.count;
    }
    const scale = 1 / Math.max(FORM.leastOwn, own);
    for (let later = 0; later < this.count; later++) {
      for (let earlier = 0; earlier <= later; earlier++) {
        const at = this.place(later, earlier);
        for (let k = 0; k < 12; k++) {
          const before = earlier > 0 ? this.sums[this.place(later - 1, earlier - 1) + k]! : 0;
          this.sums[at + k] = before + scale * this.sums[at + k]!;
        }
      }
    }
  }

  /**
   * Evidence that the bars from `later` on are those from `earlier` on played again, so many semitones (0 to 11)
   * higher: for each bar 1 is about what a bar owes to itself, 0 what chance gives, and less speaks against it.
   */
  ofRun(later: number, earlier: number, length: number, semitones: PitchClass): number {
    if (length === 0) return 0;
    const to = this.sums[this.place(later + length - 1, earlier + length - 1) + semitones]!;
    return earlier === 0 ? to : to - this.sums[this.place(later - 1, earlier - 1) + semitones]!;
  }

  private place(later: number, earlier: number): number {
    return 12 * ((later * (later + 1)) / 2 + earlier);
  }
}

/** Mean over the slots of the log-likelihood ratio, for each transposition. */
function compare(
  later: Float64Array,
  earlier: Float64Array,
  common: Float64Array,
  slots: number,
  into: Float64Array,
): void {
  into.fill(0);
  for (let slot = 0; slot < slots; slot++) {
    const start = slot * CHORD_CLASSES;
    for (let semitones = 0; semitones < 12; semitones++) {
      const moved = MOVED[semitones]!;
      let ratio = 0;
      for (let c = 0; c < CHORD_CLASSES; c++) {
        const before = earlier[start + c]!;
        if (before > 0) ratio += (before * later[start + moved[c]!]!) / common[moved[c]!]!;
      }
      into[semitones]! += Math.log((1 - FORM.variation) * ratio + FORM.variation) / slots;
    }
  }
}

const MOVED = Array.from({ length: 12 }, (_, semitones) =>
  Uint8Array.from({ length: CHORD_CLASSES }, (__, c) => transposedClass(c, semitones)),
);
