"use client";

import { type PointerEvent, useRef, useState } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { beatNear } from "@/lib/notation/beats/editBeats";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";

/** A press that moves less than this is a click. */
const DRAG_PX = 4;

/** The name of a bar where it begins: drag it to put the downbeat on another beat. */
export function BarName({ sec, text, seek }: { sec: number; text: string; seek: (sec: number) => void }) {
  const desk = useDesk();
  const { axis, grid, mayWrite } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const [toSec, setToSec] = useState<number | null>(null);
  const fromPx = useRef(0);
  const left = Math.round(((toSec ?? sec) - anchorSec) * pxPerSec);
  if (!mayWrite || !grid)
    return (
      <span className={styles.bar} style={{ left }}>
        {text}
      </span>
    );

  const beatAt = (event: PointerEvent) => beatNear(grid, sec + (event.clientX - fromPx.current) / pxPerSec);
  return (
    <span
      className={`${styles.bar} ${styles.draggable} ${toSec === null ? "" : styles.dragged}`}
      style={{ left }}
      title="Drag to put the 1 on another beat, in the whole song; hold Alt to move it from here on only"
      data-bar={text}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        fromPx.current = event.clientX;
        setToSec(sec);
      }}
      onPointerMove={(event) => {
        if (toSec !== null) setToSec(grid.beatsSec[beatAt(event)] ?? sec);
      }}
      onPointerUp={(event) => {
        if (toSec === null) return;
        event.stopPropagation();
        setToSec(null);
        if (Math.abs(event.clientX - fromPx.current) < DRAG_PX) return seek(sec);
        const beat = beatAt(event);
        const acts = beatActs(desk);
        if (grid.beatsSec[beat] !== sec) acts.downbeat(beat, event.altKey ? "onward" : "song");
      }}
      onPointerCancel={() => setToSec(null)}
    >
      {text}
    </span>
  );
}
