import { snapToBeat, stepBeat } from "@/lib/client/axis/songGrid";
import { mergeChanges, moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import { addChange, inkChange, rubOutChange, splitChange } from "@/lib/document/commands/changes";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { Desk } from "./DeskContext";
import { selectedChange, selectedSpan } from "./selection";

/** Edges closer together than this are one edge. */
const TOUCHING_SEC = 0.02;

/** The acts on the selected change; each does nothing where none is selected. */
export function changeActs(desk: Desk) {
  const { opened, selection, select, setTyping, grid, player, say } = desk;
  const { changes } = opened.song;
  const change = selectedChange(opened.song, selection);
  const index = change ? changes.indexOf(change) : -1;
  const next = changes[index + 1] ?? null;
  const before = changes[index - 1] ?? null;
  const touching = (left: ShownChange, right: ShownChange) => right.startSec - left.endSec < TOUCHING_SEC;
  const { run } = opened.acts;

  function choose(chosen: ShownChange | null) {
    if (chosen) select({ kind: "change", id: chosen.id, stretch: chosen.stretch });
  }

  return {
    change,
    next,
    /** The change before or after the selected one; with none selected, the one at the playhead. */
    step(direction: -1 | 1) {
      if (change) choose(direction < 0 ? before : next);
      else choose(changes.find((each) => each.endSec > player.timeSec) ?? changes.at(-1) ?? null);
    },
    ink() {
      if (change) run((ctx) => inkChange(ctx, change.id));
    },
    type(text: string) {
      if (change && desk.mayWrite) setTyping(text);
    },
    /** At the playhead where it lies inside, else at the beat nearest the middle. */
    split() {
      if (!change) return;
      const { startSec, endSec } = change;
      const isInside = player.timeSec > startSec + 0.05 && player.timeSec < endSec - 0.05;
      const wantedSec = isInside ? player.timeSec : (startSec + endSec) / 2;
      const beatSec = grid ? snapToBeat(grid, wantedSec) : wantedSec;
      const atSec = beatSec > startSec + 0.05 && beatSec < endSec - 0.05 ? beatSec : wantedSec;
      run((ctx) => splitChange(ctx, change.id, atSec));
    },
    merge() {
      if (change && next) run((ctx) => mergeChanges(ctx, change.id, next.id));
      else if (change) say("This is the last change: there is none after it to merge with.");
    },
    rubOut() {
      if (!change) return;
      if (run((ctx) => rubOutChange(ctx, change.id))) choose(next ?? before);
    },
    /** Moves an edge by a beat; the neighbour's edge goes with it where the two touch. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!change) return;
      const edgeSec = edge === "start" ? change.startSec : change.endSec;
      const toSec = grid ? stepBeat(grid, edgeSec, direction) : Math.max(0, edgeSec + direction * 0.25);
      const left = edge === "start" ? (before && touching(before, change) ? before.id : null) : change.id;
      const right = edge === "start" ? change.id : next && touching(change, next) ? next.id : null;
      run((ctx) => moveChangeBoundary(ctx, left, right, toSec));
    },
    /** Writes a change over the selected span, to be named at once. */
    add() {
      const span = selectedSpan(opened.song, selection, grid);
      if (!span) return;
      const ids = run((ctx) => addChange(ctx, { startSec: span.startSec, endSec: span.endSec, label: "N" }));
      if (!ids?.[0]) return;
      select({ kind: "change", id: ids[0], stretch: 0 });
      setTyping("");
    },
  };
}
