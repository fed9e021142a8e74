import type { Cents } from "@/lib/units/quantities";
import { readOne } from "../read/readHomes";
import type { Settled } from "../read/settle";
import { isGridBeats, isTuningCents } from "../records/guards";
import type { RecordKind } from "../records/records";
import type { GridBeats, Registers } from "../records/registers";
import { act, type CommandContext, type CommandResult } from "./act";
import { ink } from "./ink";
import { Pen } from "./Pen";
import { Refused } from "./refusals";

/** The kinds of which one record holds for the whole song. */
type WholeKind = Extract<RecordKind, "tuning" | "grid">;

/** Settles the tuning as it is seen. */
export function inkTuning(ctx: CommandContext, id: string): CommandResult {
  return ink(ctx, "tuning", [id]);
}

/** Sets how far the record stands from A4 = 440 Hz, -50 to +50 cents, in ink. */
export function setTuning(ctx: CommandContext, tuningCents: Cents): CommandResult {
  return act(ctx, (writes) => {
    if (!isTuningCents(tuningCents)) throw new Refused("badTuning");
    return setWhole(new Pen(ctx, "tuning", writes), { tuningCents });
  });
}

/** Settles the beat grid as it is seen. */
export function inkGrid(ctx: CommandContext, id: string): CommandResult {
  return ink(ctx, "grid", [id]);
}

/** Sets the whole beat grid, in ink. */
export function setGrid(ctx: CommandContext, beats: GridBeats): CommandResult {
  return act(ctx, (writes) => {
    if (!isGridBeats(beats)) throw new Refused("badBeats");
    return setWhole(new Pen(ctx, "grid", writes), { beats: structuredClone(beats) });
  });
}

/** Edits the record that is shown, or makes the first. */
function setWhole<K extends WholeKind>(pen: Pen<K>, values: Registers[K]): string[] {
  const standing = [...pen.sheet.values()].filter((each) => each.standing === "shown");
  const shownId = readOne(standing.map((each) => each.record))?.id;
  const shown: Settled<K> | undefined = standing.find((each) => each.id === shownId);
  return shown === undefined ? [pen.add(values)] : pen.ink(shown, values);
}
