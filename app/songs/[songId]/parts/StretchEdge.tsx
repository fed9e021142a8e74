"use client";

import { type PointerEvent, useRef, useState } from "react";
import { snapSec } from "@/lib/client/axis/snap";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { useDesk } from "./DeskContext";
import { type OnEdge, touches } from "./stretchActs";
import styles from "./stretchEdge.module.css";

/** Where a change or a section begins: drag it to move it, with the end of the one before where the two touch. */
export function StretchEdge<S extends { id: string; startSec: number; endSec: number }>({
  left,
  right,
  move,
}: {
  left: S | null;
  right: S;
  move: OnEdge;
}) {
  const { axis, snap, grid, opened, mayWrite } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const [movedSec, setMovedSec] = useState<number | null>(null);
  const startPx = useRef(0);
  if (!mayWrite) return null;
  const isShared = left !== null && touches(left, right);

  const secAt = (event: PointerEvent) => {
    const sec = Math.max(0, right.startSec + (event.clientX - startPx.current) / pxPerSec);
    return snapSec(grid, event.altKey ? "off" : snap.now().snap, sec);
  };
  return (
    <div
      className={`${styles.edge} ${movedSec === null ? "" : styles.edgeMoving}`}
      style={{ left: Math.round(((movedSec ?? right.startSec) - anchorSec) * pxPerSec) - 5 }}
      title="Drag to move this edge; hold Alt to leave the snap"
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
        opened.acts.run((ctx) => move(ctx, isShared ? left.id : null, right.id, toSec));
      }}
      onPointerCancel={() => setMovedSec(null)}
    />
  );
}
