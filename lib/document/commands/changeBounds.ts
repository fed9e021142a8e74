import type { Seconds } from "@/lib/units/quantities";
import type { ShownChange } from "../read/SongSnapshot";
import { isTime, SHORTEST_SEC } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { ChangePen } from "./ChangePen";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";

/**
 * Makes one change of two that follow each other: the first takes over the stretch of the second and becomes
 * ink, the second is rubbed out.
 */
export function mergeChanges(ctx: CommandContext, id: string, withNextId: string): CommandResult {
  return act(ctx, (writes) => {
    const pen = new ChangePen(ctx, writes);
    const first = findStanding(pen.sheet, id);
    const second = findStanding(pen.sheet, withNextId);
    if (neighbours(pen.shown, id, withNextId).length === 0) throw new Refused("notNeighbours");
    const endSec = Math.max(...[first, second].map((each) => pen.seenStretch(each.id).endSec));
    pen.inkEdges(first, { endSec });
    return [id, pen.rubOut(second)];
  });
}

/**
 * Moves the edge between two changes that follow each other, or the free edge of one beside a gap
 * (the other is then null). What the edge belongs to becomes ink. A change that goes on beneath the other is
 * left alone: it comes to sight, or goes out of it, by rule D11.
 */
export function moveChangeBoundary(
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): CommandResult {
  return act(ctx, (writes) => {
    if (!isTime(toSec)) throw new Refused("badTime");
    const pen = new ChangePen(ctx, writes);
    const left = leftId === null ? null : findStanding(pen.sheet, leftId);
    const right = rightId === null ? null : findStanding(pen.sheet, rightId);
    const { shown } = pen;
    let ends: ShownChange | undefined;
    let starts: ShownChange | undefined;
    if (left !== null && right !== null) {
      const pairs = neighbours(shown, left.id, right.id);
      const distance = ([before]: (typeof pairs)[number]) => Math.abs(before.endSec - toSec);
      [ends, starts] = pairs.sort((a, b) => distance(a) - distance(b))[0] ?? [];
      if (ends === undefined) throw new Refused("notNeighbours");
    } else if (left !== null) ends = pen.stretchesOf(left.id).at(-1);
    else if (right !== null) starts = pen.stretchesOf(right.id)[0];
    else throw new Refused("unknownRecord");

    checkEdge(shown, ends, starts, toSec);
    const touched: string[] = [];
    if (left !== null && ends === stretchAt(shown, left.id, -1)) {
      touched.push(...pen.inkEdges(left, { endSec: toSec }));
    }
    if (right !== null && starts === stretchAt(shown, right.id, 0)) {
      touched.push(...pen.inkEdges(right, { startSec: toSec }));
    }
    return touched;
  });
}

/** Every place where a stretch of the one is followed directly by a stretch of the other. */
function neighbours(
  shown: readonly ShownChange[],
  leftId: string,
  rightId: string,
): [ShownChange, ShownChange][] {
  return shown.flatMap((before, index): [ShownChange, ShownChange][] => {
    const after = shown[index + 1];
    return before.id === leftId && after?.id === rightId && leftId !== rightId ? [[before, after]] : [];
  });
}

/** An edge may go neither past the far end of the change it belongs to, nor into a change beyond a gap. */
function checkEdge(
  shown: readonly ShownChange[],
  ends: ShownChange | undefined,
  starts: ShownChange | undefined,
  toSec: Seconds,
): void {
  const beforeSec = starts && shown[shown.indexOf(starts) - 1]?.endSec;
  const afterSec = ends && shown[shown.indexOf(ends) + 1]?.startSec;
  const fromSec = ends ? ends.startSec + SHORTEST_SEC : (beforeSec ?? 0);
  const untilSec = starts ? starts.endSec - SHORTEST_SEC : (afterSec ?? Number.POSITIVE_INFINITY);
  if (toSec < fromSec || toSec > untilSec) throw new Refused("outsideChange");
}

function stretchAt(shown: readonly ShownChange[], id: string, index: number): ShownChange | undefined {
  return shown.filter((each) => each.id === id).at(index);
}
