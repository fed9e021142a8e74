import type { Hold } from "./Hold";
import { barTravel, changesMoved, footMove, gripChange, type HandSpan } from "./moveCost";
import type { HeldSet } from "./neck";
import type { Weights } from "./weights";

/**
 * The terms of `moveCost` that do not depend on the moment, looked up instead of reckoned: the search asks for millions
 * of moves, and they are made of few different ones. A move between holds falls into the bar's way between two frets,
 * what feet and knees do between two sets, and the hand's way between two spans.
 */
export class MoveTables {
  private readonly sets = new Map<number, HeldSet>();
  private mostId = 0;
  private readonly feetStill: Float64Array[] = [];
  private readonly feetGliding: Float64Array[] = [];
  private readonly spans: HandSpan[] = [];
  private readonly spanIds = new Map<number, number>();
  private readonly spansTo: Float64Array[] = [];
  private readonly frets: Float64Array[] = [];

  constructor(private readonly weights: Weights) {}

  /** Makes a hold known; to be called for every hold before the first look-up. @returns its span's number */
  learn(hold: Hold): number {
    const { set } = hold;
    if (!this.sets.has(set.id)) this.sets.set(set.id, set);
    if (set.id > this.mostId) this.mostId = set.id;
    const key = hold.firstString * 1024 + hold.lastString;
    const known = this.spanIds.get(key);
    if (known !== undefined) return known;
    const id = this.spans.length;
    this.spans.push({ firstString: hold.firstString, lastString: hold.lastString });
    this.spanIds.set(key, id);
    return id;
  }

  /** The bar's way to a fret from each lower or equal to `mostFret`. */
  barTo(fret: number, mostFret: number): Float64Array {
    this.frets[fret] ??= Float64Array.from({ length: mostFret + 1 }, (_, from) =>
      barTravel(from, fret, this.weights),
    );
    return this.frets[fret];
  }

  /** What feet and knees do to come to a hold, by the id of the set that they come from. */
  feet(to: Hold, isGlide: boolean): Float64Array {
    const rows = isGlide ? this.feetGliding : this.feetStill;
    rows[to.feetId] ??= this.feetFrom(to, isGlide);
    return rows[to.feetId]!;
  }

  /** The hand's way to a span, by the number of the span that it comes from. */
  handTo(span: number): Float64Array {
    this.spansTo[span] ??= Float64Array.from(this.spans, (from) =>
      gripChange(from, this.spans[span]!, this.weights),
    );
    return this.spansTo[span];
  }

  private feetFrom(to: Hold, isGlide: boolean): Float64Array {
    const row = new Float64Array(this.mostId + 1);
    for (const set of this.sets.values())
      row[set.id] = changesMoved(set, to, isGlide, this.weights) + footMove(set, to.set, this.weights);
    return row;
  }
}
