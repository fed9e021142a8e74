import type { SongGrid } from "@/lib/client/axis/songGrid";
import { stepBeat } from "@/lib/client/axis/songGrid";
import { type Caret, eventBeginningAt } from "@/lib/client/song/partTyping";
import type { ShownChange, ShownPart, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";

/** The one selection of the page. */
export type Selection =
  | { kind: "change"; id: string; stretch: number }
  | { kind: "caret"; caret: Caret }
  | { kind: "span"; startSec: Seconds; endSec: Seconds }
  | null;

export function selectedChange(song: SongSnapshot, selection: Selection): ShownChange | null {
  if (selection?.kind !== "change") return null;
  const same = song.changes.filter((change) => change.id === selection.id);
  return same.find((change) => change.stretch === selection.stretch) ?? same[0] ?? null;
}

export function selectedEvent(song: SongSnapshot, selection: Selection): ShownPart | null {
  return selection?.kind === "caret" ? eventBeginningAt(song.part, selection.caret) : null;
}

/** The stretch of time that the selection stands for: what "Loop it" loops. */
export function selectedSpan(
  song: SongSnapshot,
  selection: Selection,
  grid: SongGrid | null,
): { startSec: Seconds; endSec: Seconds } | null {
  if (selection === null) return null;
  if (selection.kind === "span") return selection;
  if (selection.kind === "change") return selectedChange(song, selection);
  const event = selectedEvent(song, selection);
  if (event) return event;
  const { timeSec } = selection.caret;
  return { startSec: timeSec, endSec: grid ? stepBeat(grid, timeSec, 1) : timeSec + 0.5 };
}

/** Home at a time; C major where none is known, so that numbers can still be reckoned. */
export function keyAt(song: SongSnapshot, timeSec: Seconds): Key {
  const home = song.homes.findLast((each) => each.startSec <= timeSec + 0.01) ?? song.homes[0];
  return home ? { tonic: home.tonic, mode: home.mode } : C_MAJOR;
}
