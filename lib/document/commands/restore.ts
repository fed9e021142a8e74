import type { RecordKind } from "../records/records";
import { act, type CommandContext, type CommandResult } from "./act";
import { find, Pen } from "./Pen";
import { Refused } from "./refusals";

/** Puts back a record that was rubbed out, with the mark and values it had (rule D10). */
export function restore(ctx: CommandContext, kind: RecordKind, id: string): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, kind, writes);
    const settled = find(pen.sheet, id);
    if (settled.standing !== "rubbedOut") throw new Refused("notRubbedOut");
    return [pen.restore(settled)];
  });
}
