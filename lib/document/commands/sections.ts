import type { Seconds, Semitones } from "@/lib/units/quantities";
import { isSectionLabel, isTransposition } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { inkStretches } from "./ink";
import { moveBoundary } from "./moveBoundary";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { StretchPen } from "./StretchPen";
import { checkStretch, type Stretch } from "./stretch";

/** Settles sections as they are seen, in one act; refused as a whole when one of them cannot be. */
export function inkSections(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return inkStretches(ctx, "section", ids);
}

/** Gives sections one name, which makes them ink; those of one name repeat one another (rule D22). */
export function renameSections(ctx: CommandContext, ids: readonly string[], label: string): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StretchPen(ctx, "section", writes);
    const name = checkLabel(label);
    return [...new Set(ids)].flatMap((id) => pen.inkAsSeen(id, { label: name }));
  });
}

/** Writes a new section in ink. Where it overlaps ink that starts later, that ink stays on top (rule D11). */
export function addSection(ctx: CommandContext, section: Stretch & { label: string }): CommandResult {
  return act(ctx, (writes) => {
    const values = { ...checkStretch(section), label: checkLabel(section.label), transposedSemitones: 0 };
    return [new StretchPen(ctx, "section", writes).add(values)];
  });
}

/** Says by how many semitones a section lies above the first of its name (rule D22), which makes it ink. */
export function setSectionMove(ctx: CommandContext, id: string, semitones: Semitones): CommandResult {
  return act(ctx, (writes) => {
    if (!isTransposition(semitones)) throw new Refused("badMove");
    return new StretchPen(ctx, "section", writes).inkAsSeen(id, { transposedSemitones: semitones });
  });
}

/** Moves the edge between two sections, or the free edge of one beside a gap, see {@link moveBoundary}. */
export function moveSectionBoundary(
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): CommandResult {
  return moveBoundary(ctx, "section", leftId, rightId, toSec);
}

/** Rubs a section out; {@link restore} puts it back. */
export function rubOutSection(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "section", id);
}

function checkLabel(label: string): string {
  const trimmed = typeof label === "string" ? label.trim() : label;
  if (!isSectionLabel(trimmed)) throw new Refused("badName");
  return trimmed;
}
