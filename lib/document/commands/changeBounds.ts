import type { Seconds } from "@/lib/units/quantities";
import { act, type CommandContext, type CommandResult } from "./act";
import { moveBoundary, neighbours } from "./moveBoundary";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";
import { StretchPen } from "./StretchPen";

/**
 * Makes one change of two that follow each other: the first takes over the stretch of the second and becomes
 * ink, the second is rubbed out.
 */
export function mergeChanges(ctx: CommandContext, id: string, withNextId: string): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StretchPen(ctx, "change", writes);
    const first = findStanding(pen.sheet, id);
    const second = findStanding(pen.sheet, withNextId);
    if (neighbours(pen.shown, id, withNextId).length === 0) throw new Refused("notNeighbours");
    const endSec = Math.max(...[first, second].map((each) => pen.seenStretch(each.id).endSec));
    pen.inkEdges(first, { endSec });
    return [id, pen.rubOut(second)];
  });
}

/** Moves the edge between two changes, or the free edge of one beside a gap, see {@link moveBoundary}. */
export function moveChangeBoundary(
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): CommandResult {
  return moveBoundary(ctx, "change", leftId, rightId, toSec);
}
