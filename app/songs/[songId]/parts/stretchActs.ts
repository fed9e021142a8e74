import { stepBeat } from "@/lib/client/axis/songGrid";
import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import type { StretchKind } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { selectedStretch } from "./selection";

/** Edges closer together than this are one edge. */
const TOUCHING_SEC = 0.02;

/** Whether two stretches share an edge, so that one does not move without the other. */
export function touches(left: { endSec: Seconds }, right: { startSec: Seconds }): boolean {
  return right.startSec - left.endSec < TOUCHING_SEC;
}

type OnIds = (ctx: CommandContext, ids: readonly string[]) => CommandResult;
type OnId = (ctx: CommandContext, id: string) => CommandResult;
export type OnEdge = (
  ctx: CommandContext,
  leftId: string | null,
  rightId: string | null,
  toSec: Seconds,
) => CommandResult;

/** What can be done alike with the selected change, bass note or section; nothing where none is selected. */
export function stretchActs<S extends { id: string; startSec: Seconds; endSec: Seconds; stretch: number }>(
  { opened, selection, select, grid, player }: Desk,
  kind: StretchKind,
  list: readonly S[],
  commands: { ink: OnIds; rubOut: OnId; moveEdge: OnEdge },
) {
  const chosen = selectedStretch(list, kind, selection);
  const index = chosen ? list.indexOf(chosen) : -1;
  const next = chosen ? (list[index + 1] ?? null) : null;
  const before = list[index - 1] ?? null;
  const { run } = opened.acts;

  function choose(one: S | null) {
    if (one) select({ kind, id: one.id, stretch: one.stretch });
  }

  return {
    chosen,
    next,
    before,
    choose,
    /** The one before or after; with none selected, the one at the playhead. */
    step(direction: -1 | 1) {
      if (chosen) choose(direction < 0 ? before : next);
      else choose(list.find((each) => each.endSec > player.timeSec) ?? list.at(-1) ?? null);
    },
    /** Selects the one at a time, or the nearest after it. @returns whether there is one */
    chooseAt(timeSec: Seconds): boolean {
      const one = list.find((each) => each.endSec > timeSec + TOUCHING_SEC) ?? list.at(-1) ?? null;
      choose(one);
      return one !== null;
    },
    ink() {
      if (chosen) run((ctx) => commands.ink(ctx, [chosen.id]));
    },
    rubOut() {
      if (chosen && run((ctx) => commands.rubOut(ctx, chosen.id))) choose(next ?? before);
    },
    /** Moves an edge by a beat; the neighbour's edge goes with it where the two touch. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!chosen) return;
      const edgeSec = edge === "start" ? chosen.startSec : chosen.endSec;
      const toSec = grid ? stepBeat(grid, edgeSec, direction) : Math.max(0, edgeSec + direction * 0.25);
      const left = edge === "end" ? chosen : before && touches(before, chosen) ? before : null;
      const right = edge === "start" ? chosen : next && touches(chosen, next) ? next : null;
      run((ctx) => commands.moveEdge(ctx, left?.id ?? null, right?.id ?? null, toSec));
    },
  };
}
