import { settleFrets } from "@/lib/instrument/frets";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Settled } from "../read/settle";
import { isArticulation, isChangeIds, isFret, isStrings, isTechniques } from "../records/guards";
import type { Registers } from "../records/registers";
import type { Mark } from "../records/Stamp";
import { FIRST_PART } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { addEvent } from "./addEvent";
import { checkOfPart, checkPart } from "./checkPart";
import { given } from "./given";
import { ink } from "./ink";
import { findStanding, Pen } from "./Pen";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { checkStretch } from "./stretch";

/** Everything a person says of an event. */
export type PartEventFields = Omit<PartEvent, "id">;

/** Writes a new event of a part; ink unless `mark` says pencil, as for a guess. */
export function addPartEvent(
  ctx: CommandContext,
  event: PartEventFields,
  mark: Mark = "ink",
  part: string = FIRST_PART,
): CommandResult {
  return addPartEvents(ctx, [event], mark, [], part);
}

/**
 * Writes several events in one act, in pencil or in ink (rule D33).
 * @param instead events whose pencil is taken away with it; those that are not one's own, or that anyone inked or
 *   rubbed out, stay
 */
export function addPartEvents(
  ctx: CommandContext,
  events: readonly PartEventFields[],
  mark: Mark,
  instead: readonly string[] = [],
  part: string = FIRST_PART,
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    checkPart(ctx, pen, part);
    for (const id of new Set(instead)) {
      const event = pen.sheet.get(id);
      if (!event) continue;
      checkOfPart(event, part);
      pen.takeBack(event);
    }
    return events.map((event) => addEvent(pen, checkEvent(event, part), mark));
  });
}

/**
 * Changes some fields of an event, which makes it ink. A `fret` given alone lays all strings at it; strings given alone
 * keep the frets they have, and new ones lie at the event's (rule D37).
 * @param instead events that go into it, as a string that joins it; they are rubbed out in the same act
 */
export function editPartEvent(
  ctx: CommandContext,
  id: string,
  fields: Partial<PartEventFields>,
  instead: readonly string[] = [],
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "part", writes);
    const event = findStanding(pen.sheet, id);
    const gone = instead.map((other) => findStanding(pen.sheet, other));
    for (const other of gone) checkOfPart(other, event.values.part);
    return [...pen.ink(event, editsOf(event, fields)), ...gone.map((other) => pen.rubOut(other))];
  });
}

/** What an event's registers are to hold with some fields changed. @throws Refused where they cannot */
export function editsOf(
  { record, values: { frets, ...values } }: Settled<"part">,
  fields: Partial<PartEventFields>,
): Registers["part"] {
  const { startSec, endSec, strings, techniques } = record;
  const { frets: newFrets, ...others } = given(fields);
  const whole = { ...values, startSec, endSec, strings, techniques, ...others };
  const isLaidAnew = newFrets !== undefined || others.fret !== undefined;
  const edits = checkEvent({ ...whole, frets: newFrets ?? null }, values.part);
  return isLaidAnew ? edits : { ...edits, frets };
}

/** Settles pencilled events, in one act; refused as a whole when one of them cannot be. */
export function inkPartEvents(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return ink(ctx, "part", ids);
}

/** Rubs an event out; {@link restore} puts it back. */
export function rubOutPartEvent(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "part", id);
}

/** The event as it is stored, of that part. @throws Refused where it cannot be */
export function checkEvent(event: PartEventFields, part: string): Registers["part"] {
  const { strings, fret, frets = null, changes, articulation, techniques = [] } = event;
  const { startSec, endSec } = checkStretch(event);
  if (!isStrings(strings)) throw new Refused("badStrings");
  if (!isFret(fret)) throw new Refused("badFret");
  if (frets !== null && !(Array.isArray(frets) && frets.length === strings.length && frets.every(isFret)))
    throw new Refused("badFrets");
  const held = frets === null ? { fret, frets } : settleFrets(frets);
  if (!isChangeIds(changes)) throw new Refused("badChanges");
  if (!isArticulation(articulation)) throw new Refused("badArticulation");
  if (!isTechniques(techniques)) throw new Refused("badTechniques");
  return {
    part,
    startSec,
    endSec,
    strings: [...strings].sort((a, b) => a - b),
    fret: held.fret,
    frets: held.frets && Object.fromEntries(strings.map((string, at) => [string, held.frets![at]!])),
    changes: [...changes],
    articulation,
    harmonic: techniques.includes("harmonic"),
    vibrato: techniques.includes("vibrato"),
    block: techniques.includes("block"),
  };
}
