import type { StretchKind } from "../read/SongSnapshot";
import type { RecordKind } from "../records/records";
import { act, type CommandContext, type CommandResult } from "./act";
import { findStanding, Pen } from "./Pen";
import { StretchPen } from "./StretchPen";

/** Settles records as they are seen, in one act; refused as a whole when one of them cannot be. Ink stays as it is. */
export function ink(
  ctx: CommandContext,
  kind: Exclude<RecordKind, StretchKind>,
  ids: readonly string[],
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, kind, writes);
    return [...new Set(ids)].flatMap((id) => pen.ink(findStanding(pen.sheet, id)));
  });
}

/** Settles records that others may cover in part, see {@link ink}. */
export function inkStretches(ctx: CommandContext, kind: StretchKind, ids: readonly string[]): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StretchPen(ctx, kind, writes);
    return [...new Set(ids)].flatMap((id) => pen.inkAsSeen(id));
  });
}
