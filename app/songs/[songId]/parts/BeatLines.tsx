"use client";

import { memo } from "react";
import { everySoManyBars, type SongGrid } from "@/lib/client/axis/songGrid";
import { type DrawnStretch, drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { BeatInHandLine } from "./BeatInHandLine";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";

/** Beats closer together than this are not drawn, only their bars. */
const CLOSEST_BEATS_PX = 9;
/** Bars closer together than this are drawn by twos, fours and so on. */
const CLOSEST_BARS_PX = 5;

/** Bar and beat lines, behind every lane at once; none where time is free. */
export function BeatLines() {
  const { axis, grid, opened } = useDesk();
  const drawing = useDrawing(axis);
  if (!grid) return null;
  const free = opened.song.grid?.freeStretches ?? NONE_FREE;
  return (
    <div className={styles.beatLines} aria-hidden="true">
      <LaneLayer axis={axis}>
        <Lines grid={grid} free={free} drawing={drawing} />
        <BeatInHandLine />
      </LaneLayer>
    </div>
  );
}

const NONE_FREE: readonly HeardStretch[] = [];

/** The lines of the drawn stretch, anew only when that or the beats change; those of bars alone where beats are too close. */
const Lines = memo(function Lines({
  grid,
  free,
  drawing,
}: {
  grid: SongGrid;
  free: readonly HeardStretch[];
  drawing: DrawnStretch;
}) {
  const { fromSec, toSec, pxPerSec } = drawing;
  const toPx = drawnPx(drawing);
  const beatPx = grid.tempoBpm > 0 ? (60 / grid.tempoBpm) * pxPerSec : 0;
  const isFree = (sec: number) => free.some(({ startSec, endSec }) => startSec <= sec && sec < endSec);
  const line = (sec: number, className: string | undefined) =>
    sec < fromSec || sec > toSec || isFree(sec) ? null : (
      <i key={sec} className={className} style={{ left: toPx(sec) }} />
    );
  if (beatPx >= CLOSEST_BEATS_PX)
    return grid.beatsSec.map((sec, index) =>
      line(sec, grid.inBar[index] === 1 ? styles.barLine : styles.beatLine),
    );
  const every = everySoManyBars(grid, pxPerSec, CLOSEST_BARS_PX);
  return grid.bars
    .filter(({ firstInBar }, index) => index % every === 0 && firstInBar === 1)
    .map(({ startSec }) => line(startSec, styles.barLine));
});
