import type { Seconds } from "@/lib/units/quantities";
import type { ShownStretch, StretchKind } from "../read/SongSnapshot";
import { isTime, SHORTEST_SEC } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";
import { StretchPen } from "./StretchPen";

/**
 * Moves the edge between two stretches that follow each other, or the free edge of one beside a gap
 * (the other is then null). What the edge belongs to becomes ink. What goes on beneath the other is left alone: it
 * comes to sight, or goes out of it, by rule D11.
 */
export function moveBoundary(
  ctx: CommandContext,
  kind: StretchKind,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): CommandResult {
  return act(ctx, (writes) => moveWith(new StretchPen(ctx, kind, writes), leftId, rightId, toSec));
}

function moveWith<K extends StretchKind>(
  pen: StretchPen<K>,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
): string[] {
  if (!isTime(toSec)) throw new Refused("badTime");
  const left = leftId === null ? null : findStanding(pen.sheet, leftId);
  const right = rightId === null ? null : findStanding(pen.sheet, rightId);
  const { shown } = pen;
  let ends: ShownStretch<K> | undefined;
  let starts: ShownStretch<K> | undefined;
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
}

/** Every place where a stretch of the one is followed directly by a stretch of the other. */
export function neighbours<K extends StretchKind>(
  shown: readonly ShownStretch<K>[],
  leftId: string,
  rightId: string,
): [ShownStretch<K>, ShownStretch<K>][] {
  return shown.flatMap((before, index): [ShownStretch<K>, ShownStretch<K>][] => {
    const after = shown[index + 1];
    return before.id === leftId && after?.id === rightId && leftId !== rightId ? [[before, after]] : [];
  });
}

/** An edge may go neither past the far end of what it belongs to, nor into what lies beyond a gap. */
function checkEdge<K extends StretchKind>(
  shown: readonly ShownStretch<K>[],
  ends: ShownStretch<K> | undefined,
  starts: ShownStretch<K> | undefined,
  toSec: Seconds,
): void {
  const beforeSec = starts && shown[shown.indexOf(starts) - 1]?.endSec;
  const afterSec = ends && shown[shown.indexOf(ends) + 1]?.startSec;
  const fromSec = ends ? ends.startSec + SHORTEST_SEC : (beforeSec ?? 0);
  const untilSec = starts ? starts.endSec - SHORTEST_SEC : (afterSec ?? Number.POSITIVE_INFINITY);
  if (toSec < fromSec || toSec > untilSec) throw new Refused("outside");
}

function stretchAt<K extends StretchKind>(
  shown: readonly ShownStretch<K>[],
  id: string,
  index: number,
): ShownStretch<K> | undefined {
  return shown.filter((each) => each.id === id).at(index);
}
