import type { Midi, Seconds } from "@/lib/units/quantities";
import { isBassPitch } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { inkStretches } from "./ink";
import { moveBoundary } from "./moveBoundary";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { StretchPen } from "./StretchPen";
import { checkStretch, type Stretch } from "./stretch";

/** Settles notes of the bass line as they are seen, in one act; refused as a whole when one of them cannot be. */
export function inkBassNotes(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return inkStretches(ctx, "bass", ids);
}

/** Says which note it is, which makes it ink. */
export function setBassPitch(ctx: CommandContext, id: string, midi: Midi): CommandResult {
  return act(ctx, (writes) => new StretchPen(ctx, "bass", writes).inkAsSeen(id, { midi: checkPitch(midi) }));
}

/** Writes a new note in ink. Where it overlaps ink that starts later, that ink stays on top (rule D11). */
export function addBassNote(ctx: CommandContext, note: Stretch & { midi: Midi }): CommandResult {
  return act(ctx, (writes) => [
    new StretchPen(ctx, "bass", writes).add({ ...checkStretch(note), midi: checkPitch(note.midi) }),
  ]);
}

/** Moves the edge between two notes, or the free edge of one beside a gap, see {@link moveBoundary}. */
export function moveBassBoundary(
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): CommandResult {
  return moveBoundary(ctx, "bass", leftId, rightId, toSec);
}

/** Rubs a note out; {@link restore} puts it back. */
export function rubOutBassNote(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "bass", id);
}

function checkPitch(midi: Midi): Midi {
  if (!isBassPitch(midi)) throw new Refused("badPitch");
  return midi;
}
