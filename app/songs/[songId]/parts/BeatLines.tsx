"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { BeatInHandLine } from "./BeatInHandLine";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";

/** Beats closer together than this are not drawn, only their bars. */
const CLOSEST_BEATS_PX = 9;

/** Bar and beat lines, behind every lane at once; none where time is free. */
export function BeatLines() {
  const { axis, grid, opened } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  if (!grid) return null;
  const free = opened.song.grid?.freeStretches ?? [];
  const isFree = (sec: number) => free.some(({ startSec, endSec }) => startSec <= sec && sec < endSec);
  const beatPx = grid.tempoBpm > 0 ? (60 / grid.tempoBpm) * pxPerSec : 0;
  return (
    <div className={styles.beatLines} aria-hidden="true">
      <LaneLayer axis={axis}>
        {grid.beatsSec.map((sec, index) => {
          const isBar = grid.inBar[index] === 1;
          if (sec < fromSec || sec > toSec || (!isBar && beatPx < CLOSEST_BEATS_PX) || isFree(sec))
            return null;
          const px = Math.round((sec - anchorSec) * pxPerSec);
          return <i key={sec} className={isBar ? styles.barLine : styles.beatLine} style={{ left: px }} />;
        })}
        <BeatInHandLine />
      </LaneLayer>
    </div>
  );
}
