import { stepSnap } from "@/lib/client/axis/snap";
import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import type { StretchKind } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";
import { alongActs, type OnId, type OnIds } from "./alongActs";
import type { Desk } from "./DeskContext";
import { selectedStretch } from "./selection";

/** Edges closer together than this are one edge. */
const TOUCHING_SEC = 0.02;

/** Whether two stretches share an edge, so that one does not move without the other. */
export function touches(left: { endSec: Seconds }, right: { startSec: Seconds }): boolean {
  return right.startSec - left.endSec < TOUCHING_SEC;
}

export type OnEdge = (
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
) => CommandResult;

/** What can be done alike with the selected change, bass note or section; nothing where none is selected. */
export function stretchActs<S extends { id: string; startSec: Seconds; endSec: Seconds; stretch: number }>(
  desk: Desk,
  kind: StretchKind,
  list: readonly S[],
  commands: { ink: OnIds; rubOut: OnId; moveEdge: OnEdge },
) {
  const { opened, selection, grid, snap } = desk;
  const chosen = selectedStretch(list, kind, selection);
  const select = ({ id, stretch }: S) => desk.select({ kind, id, stretch });
  const along = alongActs(desk, { list, chosen, select }, commands);
  const { before, next, choose } = along;
  const { run } = opened.acts;

  return {
    ...along,
    chosen,
    /** Selects the one at a time, or the nearest after it. @returns whether there is one */
    chooseAt(timeSec: Seconds): boolean {
      const one = list.find((each) => each.endSec > timeSec + TOUCHING_SEC) ?? list.at(-1) ?? null;
      choose(one);
      return one !== null;
    },
    /** Moves an edge to the next place that times snap to; the neighbour's edge goes with it where the two touch. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!chosen) return;
      const edgeSec = edge === "start" ? chosen.startSec : chosen.endSec;
      const toSec = stepSnap(grid, snap.now().snap, edgeSec, direction);
      const left = edge === "end" ? chosen : before && touches(before, chosen) ? before : null;
      const right = edge === "start" ? chosen : next && touches(chosen, next) ? next : null;
      run((ctx) => commands.moveEdge(ctx, left?.id ?? null, right?.id ?? null, toSec));
    },
  };
}
