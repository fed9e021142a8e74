import { isPartName } from "../records/guards";
import {
  type BegunPart,
  type CopedentSheet,
  type PartName,
  type PartStands,
  readChartOrNull,
  readSource,
} from "../records/partHead";
import {
  BEGUN,
  FIRST_PART,
  HEADS,
  isRecordId,
  NAME_REGISTER,
  registerKey,
  SHEET_REGISTER,
  STANDS_REGISTER,
} from "../records/storage";
import { act, type CommandContext, type CommandResult, type Write } from "./act";
import { checkPart } from "./checkPart";
import { Pen } from "./Pen";
import { Refused } from "./refusals";

/** What a part is made as. */
export type PartFields = Pick<BegunPart, "name" | "from" | "chart">;

/** Makes a part, with nothing written in it (rules D52, D55). Its id is the one that comes back. */
export function addPart(ctx: CommandContext, { name, ...guitar }: PartFields): CommandResult {
  return act(ctx, (writes) => {
    const id = ctx.newId();
    if (!isRecordId(id) || id === FIRST_PART) throw new Refused("badId");
    const begun: BegunPart = { ...copedentSheet(ctx, guitar), name: checkName(name) };
    writes.push({ kind: BEGUN, key: registerKey(id, SHEET_REGISTER), value: begun }, stands(ctx, id, true));
    return [id];
  });
}

/** Gives a part another name; an empty one has it called by its place in the order (rule D53). */
export function namePart(ctx: CommandContext, id: string, name: string): CommandResult {
  return act(ctx, (writes) => {
    checkPart(ctx, new Pen(ctx, "part", []), id);
    const value: PartName = { by: ctx.by, atMs: ctx.nowMs, name: checkName(name) };
    writes.push({ kind: HEADS, key: registerKey(id, NAME_REGISTER), value });
    return [id];
  });
}

/** Takes a part away and rubs its events out, in one act (rule D54); the first part stays. */
export function takePartAway(ctx: CommandContext, id: string): CommandResult {
  return act(ctx, (writes) => {
    if (id === FIRST_PART) throw new Refused("firstPart");
    const pen = new Pen(ctx, "part", writes);
    checkPart(ctx, pen, id);
    writes.push(stands(ctx, id, false));
    const events = [...pen.sheet.values()].filter(
      ({ standing, values }) => standing === "shown" && values.part === id,
    );
    return [id, ...events.map((event) => pen.rubOut(event))];
  });
}

/** The copedent that the writer chooses, as it is stored, with a copy of its chart. @throws Refused where it cannot be */
export function copedentSheet(
  { by, nowMs: atMs }: CommandContext,
  { from, chart }: Pick<CopedentSheet, "from" | "chart">,
): CopedentSheet {
  const source = readSource(from);
  if (source === null || readChartOrNull(chart, source.id) === null) throw new Refused("badCopedent");
  return { by, atMs, from: source, chart: structuredClone(chart) };
}

function stands({ by, nowMs: atMs }: CommandContext, id: string, isThere: boolean): Write {
  const value: PartStands = { by, atMs, isThere };
  return { kind: HEADS, key: registerKey(id, STANDS_REGISTER), value };
}

function checkName(name: string): string {
  const trimmed = typeof name === "string" ? name.trim() : name;
  if (!isPartName(trimmed)) throw new Refused("badPartName");
  return trimmed;
}
