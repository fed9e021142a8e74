import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { agreementWithChord, areChordTones, chordMaskOf } from "./chordAgreement";
import type { Hold } from "./Hold";
import { lockedCandidates } from "./lockedCandidates";
import type { Lock } from "./locks";
import type { MoveTables } from "./moveTables";
import type { Neck } from "./neck";
import { fretCost, holdCost, momentCost, slantCost } from "./placeCost";
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
  own: Map<number, Float64Array>;
}

/** Finds the ways to sound sets of notes, each set worked out once. */
export class NoteSets {
  private readonly known = new Map<string, NoteSet>();
  private readonly holdCosts = new Map<Hold, number>();
  private readonly fretCosts: number[] = [];
  private readonly masks = new Map<string, number>();

  constructor(
    private readonly neck: Neck,
    private readonly weights: Weights,
    private readonly tables: MoveTables,
    private readonly options: {
      key?: Key | undefined;
      maxFret?: number | undefined;
      slants?: boolean | undefined;
    },
  ) {}

  /** Whether slants are among the ways. */
  get slants(): boolean {
    return this.options.slants ?? false;
  }

  /** @param locks kept as they are: the same list stands for the same locks */
  of(notesMidi: readonly Midi[], pickedCount: number, locks: readonly Lock[]): NoteSet {
    const lockWords = locks.length === 0 ? "" : locks.map(({ words }) => words).join("; ");
    const key = `${pickedCount} ${notesMidi.join()} ${lockWords}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const { maxFret, slants } = this.options;
    const set = this.at(
      notesMidi,
      lockedCandidates(this.neck, notesMidi, locks, { maxFret, slants, pickedCount }),
    );
    this.known.set(key, set);
    return set;
  }

  /** A set of notes that is known to be played at those spots. */
  at(notesMidi: readonly Midi[], spots: readonly Spot[]): NoteSet {
    const frets = new Int32Array(spots.length);
    const sets = new Int32Array(spots.length);
    const spans = new Int32Array(spots.length);
    const lasting = new Float64Array(spots.length);
    for (let at = 0; at < spots.length; at += 1) {
      const spot = spots[at]!;
      const { fret, hold } = spot;
      frets[at] = fret;
      sets[at] = hold.set.id;
      spans[at] = this.tables.learn(hold);
      lasting[at] = this.costOfFret(fret) + this.costOfHold(hold) + slantCost(spot, this.weights);
    }
    return { notesMidi, spots, frets, sets, spans, lasting, own: new Map() };
  }

  /** What it costs to be at each of the spots. @throws HarteError on a chord label that cannot be read */
  costs(set: NoteSet, chordLabel: string | undefined, lengthSec: Seconds): Float64Array {
    const mask = chordLabel === undefined ? 0 : this.maskOf(chordLabel);
    const chordMask = areChordTones(mask, set.notesMidi) ? mask : 0;
    const isQuick = lengthSec < this.weights.openRunSec;
    const key = isQuick ? -1 - chordMask : chordMask;
    const known = set.own.get(key);
    if (known !== undefined) return known;
    const { key: home } = this.options;
    const costs = new Float64Array(set.lasting);
    for (let at = 0; at < costs.length; at += 1) {
      const spot = set.spots[at]!;
      const agreement = chordMask === 0 ? null : agreementWithChord(this.neck, spot, chordMask).agreement;
      if (spot.fret === 0 || home !== undefined || (agreement !== null && agreement !== "foreign"))
        costs[at]! += momentCost(spot, { key: home, lengthSec, agreement }, this.weights);
    }
    set.own.set(key, costs);
    return costs;
  }

  private maskOf(chordLabel: string): number {
    const known = this.masks.get(chordLabel) ?? chordMaskOf(chordLabel);
    this.masks.set(chordLabel, known);
    return known;
  }

  private costOfFret(fret: number): number {
    this.fretCosts[fret] ??= fretCost(fret, this.weights);
    return this.fretCosts[fret]!;
  }

  private costOfHold(hold: Hold): number {
    const known = this.holdCosts.get(hold);
    if (known !== undefined) return known;
    const cost = holdCost(hold, this.weights);
    this.holdCosts.set(hold, cost);
    return cost;
  }
}
