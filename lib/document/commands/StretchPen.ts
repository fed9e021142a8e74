import { readStretches } from "../read/readStretches";
import type { ShownStretch, StretchKind } from "../read/SongSnapshot";
import type { Settled } from "../read/settle";
import type { Registers } from "../records/registers";
import type { CommandContext, Write } from "./act";
import { findStanding, Pen } from "./Pen";
import { Refused } from "./refusals";
import type { Stretch } from "./stretch";

/** A pen for the kinds that lie one after another in time, which knows what of each is seen under the others. */
export class StretchPen<K extends StretchKind> extends Pen<K> {
  /** The stretches as everyone sees them before the command, in order of time. */
  readonly shown: readonly ShownStretch<K>[];

  constructor(ctx: CommandContext, kind: K, writes: Write[]) {
    super(ctx, kind, writes);
    const standing = [...this.sheet.values()].filter((each) => each.standing === "shown");
    this.shown = readStretches(standing.map((each) => each.record));
  }

  /** The stretches where a record is seen, at least one; refused where it is seen nowhere. */
  stretchesOf(id: string): [ShownStretch<K>, ...ShownStretch<K>[]] {
    const [first, ...others] = this.shown.filter((each) => each.id === id);
    if (first === undefined) throw new Refused("notShown");
    return [first, ...others];
  }

  /** From where to where a record is seen, over what covers it in between. */
  seenStretch(id: string): Stretch {
    const stretches = this.stretchesOf(id);
    return { startSec: stretches[0].startSec, endSec: stretches.at(-1)!.endSec };
  }

  /** Settles a record as it is seen, with some registers changed. */
  inkAsSeen(id: string, edits: Partial<Registers[K]> = {}): string[] {
    return this.ink(findStanding(this.sheet, id), edits, this.ends(this.seenStretch(id)));
  }

  /** Settles a record with one or both ends moved; ends that crossed (rule D4) are put in order with it. */
  inkEdges(settled: Settled<K>, edits: Partial<Stretch>): string[] {
    const seen = this.seenStretch(settled.id);
    const { startSec, endSec } = settled.isInk ? settled.record : seen;
    return this.ink(settled, this.ends({ startSec, endSec, ...edits }), this.ends(seen));
  }

  /** Every kind of stretch has these two registers. */
  private ends(stretch: Stretch): Partial<Registers[K]> {
    return stretch as Partial<Registers[K]>;
  }
}
