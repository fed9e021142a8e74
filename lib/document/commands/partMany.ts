import type { Mark } from "../records/Stamp";
import { FIRST_PART } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { addEvent } from "./addEvent";
import { checkPart } from "./checkPart";
import { findStanding, Pen } from "./Pen";
import { checkEvent, editsOf, type PartEventFields } from "./part";
import { Refused } from "./refusals";
import { writeInMark } from "./writeInMark";

/** An event as it is copied: what it says, and in which mark. */
export interface CopiedEvent {
  event: PartEventFields;
  mark: Mark;
}

/**
 * Changes fields of several events in one act, each in the mark that it has (rule D50): they are moved, transposed, laid
 * elsewhere or played another way. Refused whole where one of them cannot be.
 * @param edits by event id; fields as `editPartEvent` takes them
 */
export function editPartEvents(
  ctx: CommandContext,
  edits: ReadonlyMap<string, Partial<PartEventFields>>,
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    return [...edits].flatMap(([id, fields]) => {
      const event = findStanding(pen.sheet, id);
      return writeInMark(pen, event, editsOf(event, fields));
    });
  });
}

/** Writes copies of events into a part in one act, each in the mark of what it was copied from (rule D51). */
export function copyPartEvents(
  ctx: CommandContext,
  copies: readonly CopiedEvent[],
  part: string = FIRST_PART,
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    checkPart(ctx, pen, part);
    return copies.map(({ event, mark }) => addEvent(pen, checkEvent(event, part), mark));
  });
}

/**
 * Moves events to another part in one act, each in the mark that it had (rule D66): rubbed out where it was, it stands anew
 * there. Refused whole where one of them cannot be moved.
 * @param laid how each is played there, by the event's id
 */
export function movePartEvents(
  ctx: CommandContext,
  laid: ReadonlyMap<string, PartEventFields>,
  part: string,
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    checkPart(ctx, pen, part);
    return [...laid].flatMap(([id, fields]) => {
      const event = findStanding(pen.sheet, id);
      if (event.values.part === part) throw new Refused("samePart");
      if (!pen.takeBack(event)) pen.rubOut(event);
      return [id, addEvent(pen, checkEvent(fields, part), event.isInk ? "ink" : "pencil")];
    });
  });
}

/** Rubs several events out in one act (rule D51); each can be put back by itself. Refused whole where one cannot be. */
export function rubOutPartEvents(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    return [...new Set(ids)].map((id) => pen.rubOut(findStanding(pen.sheet, id)));
  });
}
