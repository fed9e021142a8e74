import type { RecordKind } from "../records/records";
import { act, type CommandContext, type CommandResult } from "./act";
import { findStanding, Pen } from "./Pen";

/** Rubs a record of any kind out; {@link restore} puts it back. */
export function rubOut(ctx: CommandContext, kind: RecordKind, id: string): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, kind, writes);
    return [pen.rubOut(findStanding(pen.sheet, id))];
  });
}
