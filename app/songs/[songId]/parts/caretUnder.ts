import type { PointerEvent } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { SnapStore } from "@/lib/client/axis/SnapStore";
import { snapSec } from "@/lib/client/axis/snap";
import type { SongGrid } from "@/lib/client/axis/songGrid";
import { pxToSec } from "@/lib/client/axis/timeAxis";
import type { Caret } from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { stringPx } from "./partLayout";

/** What a click just before an event's cell, and on it, is taken for, in pixels from where it begins. */
const BEFORE_PX = 14;
const ON_PX = 28;

/** Where the caret goes by a click into the lane of a part: to what begins there, else to a place that times snap to. */
export function caretUnder(
  event: PointerEvent<HTMLElement>,
  {
    axis,
    grid,
    snap,
    strings,
    events,
  }: {
    axis: AxisStore;
    grid: SongGrid | null;
    snap: SnapStore;
    strings: readonly number[];
    events: readonly ShownPart[];
  },
): Caret {
  const box = event.currentTarget.getBoundingClientRect();
  const row = Math.floor((event.clientY - box.top) / stringPx());
  const string = strings[Math.min(strings.length - 1, Math.max(0, row))] ?? 1;
  const now = axis.now();
  const sec = pxToSec(now, event.clientX - box.left);
  const near = events.find(
    (each) =>
      each.strings.includes(string) &&
      sec >= each.startSec - BEFORE_PX / now.pxPerSec &&
      sec <= each.startSec + ON_PX / now.pxPerSec,
  );
  return { string, timeSec: near?.startSec ?? snapSec(grid, snap.now().snap, sec) };
}
