import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { type Agreement, agreementWithChord, areChordTones, chordMaskOf } from "./chordAgreement";
import type { Hold } from "./Hold";
import { lockedCandidates } from "./lockedCandidates";
import type { Lock } from "./locks";
import type { MoveTables } from "./moveTables";
import type { Neck } from "./neck";
import { fretCost, holdCost, momentCost } from "./placeCost";
import type { Spot } from "./Spot";
import type { Weights } from "./weights";

/** The ways to sound one set of notes, as columns: one entry for each. */
export interface NoteSet {
  notesMidi: readonly Midi[];
  spots: readonly Spot[];
  frets: Int32Array;
  /** Ids of the sets of changes. */
  sets: Int32Array;
  /** Numbers of the hand's spans, as `MoveTables` counts them. */
  spans: Int32Array;
  /** What being there costs at any moment. */
  lasting: Float64Array;
  /** What being there costs, by what is known of the moment. */
  own: Map<string, Float64Array>;
}

/** Finds the ways to sound sets of notes, each set worked out once. */
export class NoteSets {
  private readonly known = new Map<string, NoteSet>();
  private readonly holdCosts: number[] = [];
  private readonly agreements = new Map<number, Map<number, Agreement>>();

  constructor(
    private readonly neck: Neck,
    private readonly weights: Weights,
    private readonly tables: MoveTables,
    private readonly options: { key?: Key | undefined; maxFret?: number | undefined },
  ) {}

  /** @param locks kept as they are: the same list stands for the same locks */
  of(notesMidi: readonly Midi[], pickedCount: number, locks: readonly Lock[]): NoteSet {
    const lockWords = locks.map(({ words }) => words).join("; ");
    const key = `${pickedCount} ${notesMidi.join()} ${lockWords}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const { maxFret } = this.options;
    const set = this.at(notesMidi, lockedCandidates(this.neck, notesMidi, locks, { maxFret, pickedCount }));
    this.known.set(key, set);
    return set;
  }

  /** A set of notes that is known to be played at those spots. */
  at(notesMidi: readonly Midi[], spots: readonly Spot[]): NoteSet {
    return {
      notesMidi,
      spots,
      frets: Int32Array.from(spots, ({ fret }) => fret),
      sets: Int32Array.from(spots, ({ hold }) => hold.set.id),
      spans: Int32Array.from(spots, ({ hold }) => this.tables.learn(hold)),
      lasting: Float64Array.from(
        spots,
        ({ fret, hold }) => fretCost(fret, this.weights) + this.costOfHold(hold),
      ),
      own: new Map(),
    };
  }

  /** What it costs to be at each of the spots. @throws HarteError on a chord label that cannot be read */
  costs(set: NoteSet, chordLabel: string | undefined, lengthSec: Seconds): Float64Array {
    const mask = chordLabel === undefined ? 0 : chordMaskOf(chordLabel);
    const chordMask = areChordTones(mask, set.notesMidi) ? mask : 0;
    const key = `${chordMask} ${lengthSec < this.weights.openRunSec}`;
    const known = set.own.get(key);
    if (known !== undefined) return known;
    const costs = set.lasting.map((lasting, at) => {
      const spot = set.spots[at]!;
      const agreement = chordMask === 0 ? null : this.agreement(spot, chordMask);
      return lasting + momentCost(spot.fret, { key: this.options.key, lengthSec, agreement }, this.weights);
    });
    set.own.set(key, costs);
    return costs;
  }

  private costOfHold(hold: Hold): number {
    this.holdCosts[hold.id] ??= holdCost(hold, this.weights);
    return this.holdCosts[hold.id]!;
  }

  private agreement(spot: Spot, chordMask: number): Agreement {
    const key = spot.hold.id * 12 + (spot.fret % 12);
    const ofChord = this.agreements.get(chordMask) ?? new Map<number, Agreement>();
    this.agreements.set(chordMask, ofChord);
    const known = ofChord.get(key) ?? agreementWithChord(this.neck, spot, chordMask).agreement;
    ofChord.set(key, known);
    return known;
  }
}
