import type { Seconds } from "@/lib/units/quantities";
import { isLabel } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { inkStretches } from "./ink";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { StretchPen } from "./StretchPen";
import { checkStretch } from "./stretch";

/** Settles a pencilled change as it is seen. Ink stays as it is. */
export function inkChange(ctx: CommandContext, id: string): CommandResult {
  return inkChanges(ctx, [id]);
}

/** Settles several changes in one act; refused as a whole when one of them cannot be. */
export function inkChanges(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return inkStretches(ctx, "change", ids);
}

/** Names the chord of a change, which makes it ink. */
export function setChangeLabel(ctx: CommandContext, id: string, label: string): CommandResult {
  return act(ctx, (writes) =>
    new StretchPen(ctx, "change", writes).inkAsSeen(id, { label: checkLabel(label) }),
  );
}

/** Writes a new change in ink. Where it overlaps ink that starts later, that ink stays on top (rule D11). */
export function addChange(
  ctx: CommandContext,
  change: { startSec: Seconds; endSec: Seconds; label: string },
): CommandResult {
  return act(ctx, (writes) => {
    const { startSec, endSec } = checkStretch(change);
    return [new StretchPen(ctx, "change", writes).add({ startSec, endSec, label: checkLabel(change.label) })];
  });
}

/** Rubs a change out; {@link restore} puts it back. */
export function rubOutChange(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "change", id);
}

/**
 * Parts a change in two at a place inside it; both parts are ink and keep the label.
 * @returns ids of the first part (the record itself) and of the second (new)
 */
export function splitChange(ctx: CommandContext, id: string, atSec: Seconds): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StretchPen(ctx, "change", writes);
    const change = findStanding(pen.sheet, id);
    const stretches = pen.stretchesOf(id);
    const cut = stretches.find((each) => each.startSec <= atSec && atSec <= each.endSec);
    if (cut === undefined) throw new Refused(Number.isFinite(atSec) ? "outside" : "badTime");
    checkStretch({ startSec: cut.startSec, endSec: atSec }, "outside");
    checkStretch({ startSec: atSec, endSec: cut.endSec }, "outside");
    const { endSec } = pen.seenStretch(id);
    pen.inkEdges(change, { endSec: atSec });
    return [id, pen.add({ startSec: atSec, endSec, label: change.record.label })];
  });
}

/** @throws Refused where it is no chord label */
export function checkLabel(label: string): string {
  const trimmed = typeof label === "string" ? label.trim() : label;
  if (!isLabel(trimmed)) throw new Refused("badLabel");
  return trimmed;
}
