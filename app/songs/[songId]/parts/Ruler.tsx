"use client";

import { everySoManyBars } from "@/lib/client/axis/songGrid";
import { drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { textScale } from "@/lib/client/page/textScale";
import { BarName } from "./BarName";
import { BeatHandles, TapMarks } from "./BeatHandles";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import lanes from "./lanes.module.css";
import styles from "./ruler.module.css";
import { SecondMarks } from "./SecondsRuler";
import { useSpanDrag } from "./useSpanDrag";

/** Bar labels stand at least this far apart. */
const LABEL_PX = 56;
/** An upbeat has its label where it is at least so wide. */
const UPBEAT_PX = 64;

/** Bars and beats, and where time is free; where no beats are known yet, seconds. Click to go there, drag to select. */
export function Ruler() {
  const { axis, grid, opened, player } = useDesk();
  const drawing = useDrawing(axis);
  const { fromSec, toSec, pxPerSec } = drawing;
  const drag = useSpanDrag();
  const marks: { sec: number; text: string }[] = [];
  if (grid) {
    const bars = grid.bars.map(({ number, startSec }) => ({
      sec: startSec,
      text: number < 1 ? "upbeat" : `bar ${number}`,
    }));
    const every = everySoManyBars(grid, pxPerSec, LABEL_PX * textScale());
    const upbeatPx =
      ((grid.bars[1]?.startSec ?? Number.POSITIVE_INFINITY) - (grid.bars[0]?.startSec ?? 0)) * pxPerSec;
    if (grid.bars[0] && grid.bars[0].number < 1 && upbeatPx < UPBEAT_PX) bars.shift();
    marks.push(...bars.filter((_, index) => index % every === 0));
  }
  const free = (opened.song.grid?.freeStretches ?? []).filter(
    ({ startSec, endSec }) => endSec >= fromSec && startSec <= toSec,
  );
  const isFree = (sec: number) => free.some(({ startSec, endSec }) => startSec <= sec && sec < endSec);
  const px = drawnPx(drawing);
  return (
    <section className={styles.ruler} aria-label="Bars">
      <div className={lanes.gutter} />
      <div className={styles.time} {...drag}>
        <LaneLayer axis={axis}>
          {grid ? null : <SecondMarks />}
          {free.map(({ startSec, endSec }) => (
            <span
              key={startSec}
              className={styles.freeTime}
              style={{ left: px(startSec), width: px(endSec) - px(startSec) }}
              title="No steady beat is played here"
            >
              free time
            </span>
          ))}
          {marks
            .filter(({ sec }) => sec >= fromSec && sec <= toSec && !isFree(sec))
            .map(({ sec, text }) => (
              <BarName key={sec} sec={sec} text={text} seek={player.seek.bind(player)} />
            ))}
          <BeatHandles />
          <TapMarks />
        </LaneLayer>
      </div>
    </section>
  );
}
