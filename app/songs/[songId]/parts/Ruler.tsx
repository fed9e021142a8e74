"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { clockText } from "@/lib/client/format/format";
import { BarName } from "./BarName";
import { BeatHandles, TapMarks } from "./BeatHandles";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";
import { useSpanDrag } from "./useSpanDrag";

/** Bar labels stand at least this far apart. */
const LABEL_PX = 56;
/** An upbeat has its label where it is at least so wide. */
const UPBEAT_PX = 64;

/** Bars and beats, and where time is free; where no beats are known yet, seconds. Click to go there, drag to select. */
export function Ruler() {
  const { axis, grid, opened, player } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  const drag = useSpanDrag();
  const marks: { sec: number; text: string }[] = [];
  if (grid) {
    const bars = grid.bars.map(({ number, startSec }) => ({
      sec: startSec,
      text: number < 1 ? "upbeat" : `bar ${number}`,
    }));
    const barPx = grid.tempoBpm > 0 ? (60 / grid.tempoBpm) * grid.beatsPerBar * pxPerSec : LABEL_PX;
    const every = 2 ** Math.max(0, Math.ceil(Math.log2(LABEL_PX / barPx)));
    const upbeatPx =
      ((grid.bars[1]?.startSec ?? Number.POSITIVE_INFINITY) - (grid.bars[0]?.startSec ?? 0)) * pxPerSec;
    if (grid.bars[0] && grid.bars[0].number < 1 && upbeatPx < UPBEAT_PX) bars.shift();
    marks.push(...bars.filter((_, index) => index % every === 0));
  } else {
    const everySec = [1, 2, 5, 10, 15, 30, 60, 120].find((sec) => sec * pxPerSec >= LABEL_PX) ?? 300;
    for (let sec = 0; sec <= axis.now().durationSec; sec += everySec)
      marks.push({ sec, text: clockText(sec) });
  }
  const free = (opened.song.grid?.freeStretches ?? []).filter(
    ({ startSec, endSec }) => endSec >= fromSec && startSec <= toSec,
  );
  const isFree = (sec: number) => free.some(({ startSec, endSec }) => startSec <= sec && sec < endSec);
  const px = (sec: number) => Math.round((sec - anchorSec) * pxPerSec);
  return (
    <section className={styles.ruler} aria-label="Bars">
      <div className={styles.gutter} />
      <div className={styles.track} {...drag}>
        <LaneLayer axis={axis}>
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
