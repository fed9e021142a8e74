"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { beatNear } from "@/lib/notation/beats/editBeats";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";
import { useTimeDrag } from "./useTimeDrag";

/** The name of a bar where it begins: drag it with a mouse to put the downbeat on another beat. */
export function BarName({ sec, text, seek }: { sec: number; text: string; seek: (sec: number) => void }) {
  const desk = useDesk();
  const { axis, grid, mayWrite } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const { movedSec, handlers } = useTimeDrag({
    sec,
    mayDrag: mayWrite,
    isForFingers: false,
    place: (at) => (grid ? (grid.beatsSec[beatNear(grid, at)] ?? sec) : sec),
    drop: (toSec, isAlt) => {
      if (grid && toSec !== sec) beatActs(desk).downbeat(beatNear(grid, toSec), isAlt ? "onward" : "song");
    },
    click: () => seek(sec),
  });
  const left = Math.round(((movedSec ?? sec) - anchorSec) * pxPerSec);
  if (!mayWrite || !grid)
    return (
      <span className={styles.bar} style={{ left }}>
        {text}
      </span>
    );
  return (
    <span
      className={`${styles.bar} ${styles.draggable} ${movedSec === null ? "" : styles.dragged}`}
      style={{ left }}
      title="Drag to put the 1 on another beat, in the whole song; hold Alt to move it from here on only"
      data-bar={text}
      {...handlers}
    >
      {text}
    </span>
  );
}
