import { readChanges } from "../read/readChanges";
import type { ShownChange } from "../read/SongSnapshot";
import type { Settled } from "../read/settle";
import type { CommandContext, Write } from "./act";
import { Pen } from "./Pen";
import { Refused } from "./refusals";
import type { Stretch } from "./stretch";

/** A pen for changes, which knows what of each is seen under the others. */
export class ChangePen extends Pen<"change"> {
  /** The changes as everyone sees them before the command, in order of time. */
  readonly shown: readonly ShownChange[];

  constructor(ctx: CommandContext, writes: Write[]) {
    super(ctx, "change", writes);
    const standing = [...this.sheet.values()].filter((each) => each.standing === "shown");
    this.shown = readChanges(standing.map((each) => each.record));
  }

  /** The stretches where a change is seen, at least one; refused where it is seen nowhere. */
  stretchesOf(id: string): [ShownChange, ...ShownChange[]] {
    const [first, ...others] = this.shown.filter((each) => each.id === id);
    if (first === undefined) throw new Refused("notShown");
    return [first, ...others];
  }

  /** From where to where a change is seen, over what covers it in between. */
  seenStretch(id: string): Stretch {
    const stretches = this.stretchesOf(id);
    return { startSec: stretches[0].startSec, endSec: stretches.at(-1)!.endSec };
  }

  /** Settles a change with one or both ends moved; ends that crossed (rule D4) are put in order with it. */
  inkEdges(change: Settled<"change">, edits: Partial<Stretch>): string[] {
    const seen = this.seenStretch(change.id);
    const { startSec, endSec } = change.isInk ? change.record : seen;
    return this.ink(change, { startSec, endSec, ...edits }, seen);
  }
}
