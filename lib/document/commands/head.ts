import { type CopedentSheet, readChartOrNull, readSource } from "../records/partHead";
import { COPEDENT_REGISTER, HEADS, registerKey, THE_PART } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { findStanding, Pen } from "./Pen";
import { checkEvent, type PartEventFields } from "./part";
import { Refused } from "./refusals";
import { writeInMark } from "./writeInMark";

/** Where an event lies, and how it begins there where that is otherwise than it was. */
export type EventPlace = Pick<PartEventFields, "strings" | "fret" | "frets" | "changes"> &
  Partial<Pick<PartEventFields, "articulation">>;

/**
 * Says on what copedent the part is played, with a whole copy of its chart (rule D38).
 * @param laidAnew places of events on that copedent, by event id; written in the same act, each in the mark that the
 *   event had (rule D39)
 */
export function setPartCopedent(
  ctx: CommandContext,
  { from, chart }: Pick<CopedentSheet, "from" | "chart">,
  laidAnew: ReadonlyMap<string, EventPlace> = new Map(),
): CommandResult {
  return act(ctx, (writes) => {
    const source = readSource(from);
    if (source === null || readChartOrNull(chart, source.id) === null) throw new Refused("badCopedent");
    const { by, nowMs: atMs } = ctx;
    const sheet: CopedentSheet = { by, atMs, from: source, chart: structuredClone(chart) };
    writes.push({ kind: HEADS, key: registerKey(THE_PART, COPEDENT_REGISTER), value: sheet });
    const pen = new Pen(ctx, "part", writes);
    const ids = [...laidAnew].flatMap(([id, { frets = null, ...place }]) => {
      const event = findStanding(pen.sheet, id);
      const { startSec, endSec, articulation, techniques } = event.record;
      return writeInMark(
        pen,
        event,
        checkEvent({ startSec, endSec, articulation, techniques, ...place, frets }),
      );
    });
    return [THE_PART, ...ids];
  });
}
