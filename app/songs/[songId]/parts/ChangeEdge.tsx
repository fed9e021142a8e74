"use client";

import { type PointerEvent, useRef, useState } from "react";
import { snapToBeat } from "@/lib/client/axis/songGrid";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import styles from "./changes.module.css";
import { useDesk } from "./DeskContext";

/** Edges closer together than this are one edge. */
const TOUCHING_SEC = 0.02;

/** Where a change begins: drag it to move it, with the end of the change before where the two touch. */
export function ChangeEdge({ left, right }: { left: ShownChange | null; right: ShownChange }) {
  const { axis, grid, opened, mayWrite } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const [movedSec, setMovedSec] = useState<number | null>(null);
  const startPx = useRef(0);
  if (!mayWrite) return null;
  const touches = left !== null && right.startSec - left.endSec < TOUCHING_SEC;

  const secAt = (event: PointerEvent) => {
    const sec = Math.max(0, right.startSec + (event.clientX - startPx.current) / pxPerSec);
    return grid && !event.altKey ? snapToBeat(grid, sec) : sec;
  };
  return (
    <div
      className={`${styles.edge} ${movedSec === null ? "" : styles.edgeMoving}`}
      style={{ left: Math.round(((movedSec ?? right.startSec) - anchorSec) * pxPerSec) - 5 }}
      title="Drag to move this edge; hold Alt to leave the beats"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        startPx.current = event.clientX;
        setMovedSec(right.startSec);
      }}
      onPointerMove={(event) => movedSec !== null && setMovedSec(secAt(event))}
      onPointerUp={(event) => {
        if (movedSec === null) return;
        const toSec = secAt(event);
        setMovedSec(null);
        if (Math.abs(event.clientX - startPx.current) < 3) return;
        opened.acts.run((ctx) => moveChangeBoundary(ctx, touches ? left.id : null, right.id, toSec));
      }}
      onPointerCancel={() => setMovedSec(null)}
    />
  );
}
