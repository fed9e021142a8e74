"use client";

import { useEffect, useRef } from "react";
import { snapSec } from "@/lib/client/axis/snap";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { useDesk } from "./DeskContext";
import { type OnEdge, touches } from "./stretchActs";
import styles from "./stretchEdge.module.css";
import { useTimeDrag } from "./useTimeDrag";

/**
 * Where a change or a section begins: drag it to move it, with the end of the one before where the two touch. A finger moves it
 * where one of them is selected; else it drags the lanes along, as anywhere.
 */
export function StretchEdge<S extends { id: string; startSec: number; endSec: number }>({
  left,
  right,
  selected,
  move,
  onDragged,
}: {
  left: S | null;
  right: S;
  /** What is selected in the lane. */
  selected: S | null;
  move: OnEdge;
  /** Told when a drag begins and when it ends. */
  onDragged: (isDragged: boolean) => void;
}) {
  const { axis, snap, grid, opened, mayWrite } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const isShared = left !== null && touches(left, right);
  const isForFingers = selected !== null && (selected === right || (isShared && selected === left));
  const { movedSec, handlers } = useTimeDrag({
    sec: right.startSec,
    mayDrag: mayWrite,
    isForFingers,
    place: (sec, isFree) => snapSec(grid, isFree ? "off" : snap.now().snap, sec),
    drop: (sec) => opened.acts.run((ctx) => move(ctx, isShared ? left.id : null, right.id, sec)),
    click: () => {},
  });
  const isDragged = movedSec !== null;
  const told = useRef(isDragged);
  useEffect(() => {
    if (told.current !== isDragged) onDragged(isDragged);
    told.current = isDragged;
  });
  if (!mayWrite) return null;
  return (
    <div
      className={`${styles.edge} ${isForFingers ? styles.forFingers : ""} ${movedSec === null ? "" : styles.edgeMoving}`}
      style={{ left: Math.round(((movedSec ?? right.startSec) - anchorSec) * pxPerSec) - 5 }}
      title="Drag to move this edge; hold Alt to leave the snap"
      {...handlers}
    />
  );
}
