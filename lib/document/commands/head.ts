import type { CopedentSheet } from "../records/partHead";
import { COPEDENT_REGISTER, FIRST_PART, HEADS, registerKey } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { checkOfPart, checkPart } from "./checkPart";
import { findStanding, Pen } from "./Pen";
import { checkEvent, type PartEventFields } from "./part";
import { copedentSheet } from "./parts";
import { writeInMark } from "./writeInMark";

/** Where an event lies, and how it begins there where that is otherwise than it was. */
export type EventPlace = Pick<PartEventFields, "strings" | "fret" | "frets" | "changes"> &
  Partial<Pick<PartEventFields, "articulation">>;

/**
 * Says on what copedent a part is played, with a whole copy of its chart (rule D38).
 * @param laidAnew places of its events on that copedent, by event id; written in the same act, each in the mark that the
 *   event had (rule D39)
 */
export function setPartCopedent(
  ctx: CommandContext,
  guitar: Pick<CopedentSheet, "from" | "chart">,
  laidAnew: ReadonlyMap<string, EventPlace> = new Map(),
  part: string = FIRST_PART,
): CommandResult {
  return act(ctx, (writes) => {
    const value = copedentSheet(ctx, guitar);
    const pen = new Pen(ctx, "part", writes);
    checkPart(ctx, pen, part);
    writes.push({ kind: HEADS, key: registerKey(part, COPEDENT_REGISTER), value });
    const ids = [...laidAnew].flatMap(([id, { frets = null, ...place }]) => {
      const event = findStanding(pen.sheet, id);
      checkOfPart(event, part);
      const { startSec, endSec, articulation, techniques } = event.record;
      return writeInMark(
        pen,
        event,
        checkEvent({ startSec, endSec, articulation, techniques, ...place, frets }, part),
      );
    });
    return [part, ...ids];
  });
}
