"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";
import { useTaps } from "./useTaps";
import { useTimeDrag } from "./useTimeDrag";

/** Beats closer together than this have no handles. */
const CLOSEST_PX = 12;

/** While a beat is in hand: a handle on every beat of the ruler, to choose it or to drag it elsewhere. */
export function BeatHandles() {
  const desk = useDesk();
  const { axis, grid, selection } = desk;
  const { fromSec, toSec, pxPerSec } = useDrawing(axis);
  if (selection?.kind !== "beat" || !grid) return null;
  const { beat } = beatActs(desk);
  const beatPx = grid.tempoBpm > 0 ? (60 / grid.tempoBpm) * pxPerSec : CLOSEST_PX;
  return grid.beatsSec.map((sec, index) =>
    sec < fromSec || sec > toSec || (beatPx < CLOSEST_PX && index !== beat) ? null : (
      <BeatHandle
        key={`${index} of ${grid.beatsSec.length}`}
        index={index}
        sec={sec}
        isInHand={index === beat}
      />
    ),
  );
}

function BeatHandle({ index, sec, isInHand }: { index: number; sec: number; isInHand: boolean }) {
  const desk = useDesk();
  const { axis, mayWrite } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const { movedSec, handlers } = useTimeDrag({
    sec,
    mayDrag: mayWrite,
    isForFingers: true,
    place: (at) => at,
    drop: (toSec) => beatActs(desk).move(index, toSec),
    click: () => beatActs(desk).choose(sec),
  });
  return (
    <span
      className={`${styles.beat} ${isInHand ? styles.inHand : ""} ${movedSec === null ? "" : styles.beatMoving}`}
      style={{ left: Math.round(((movedSec ?? sec) - anchorSec) * pxPerSec) }}
      title={mayWrite ? "Drag to move this beat" : undefined}
      data-beat={index}
      {...handlers}
    />
  );
}

/** The beats that were tapped, as they would be laid. */
export function TapMarks() {
  const { axis, taps } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  const { taps: tapped, fitted } = useTaps(taps);
  const marks = fitted
    ? fitted.beatsSec.map((sec, beat) => ({ sec, isOne: fitted.downbeats.includes(beat) }))
    : tapped.map(({ timeSec, isDownbeat }) => ({ sec: timeSec, isOne: isDownbeat }));
  return marks.map(({ sec, isOne }) =>
    sec < fromSec || sec > toSec ? null : (
      <i
        key={sec}
        className={`${styles.tapped} ${isOne ? styles.tappedOne : ""}`}
        style={{ left: Math.round((sec - anchorSec) * pxPerSec) }}
      />
    ),
  );
}
