"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { clockText } from "@/lib/client/format/format";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";
import { useSpanDrag } from "./useSpanDrag";

/** Bar labels stand at least this far apart. */
const LABEL_PX = 56;

/** Bars and beats; where none are known yet, seconds. Click to go there, drag to select. */
export function Ruler() {
  const { axis, grid } = useDesk();
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
    marks.push(...bars.filter((_, index) => index % every === 0));
  } else {
    const everySec = [1, 2, 5, 10, 15, 30, 60, 120].find((sec) => sec * pxPerSec >= LABEL_PX) ?? 300;
    for (let sec = 0; sec <= axis.now().durationSec; sec += everySec)
      marks.push({ sec, text: clockText(sec) });
  }
  return (
    <section className={styles.ruler} aria-label="Bars">
      <div className={styles.gutter} />
      <div className={styles.track} {...drag}>
        <LaneLayer axis={axis}>
          {marks
            .filter(({ sec }) => sec >= fromSec && sec <= toSec)
            .map(({ sec, text }) => (
              <span
                key={sec}
                className={styles.barLabel}
                style={{ left: Math.round((sec - anchorSec) * pxPerSec) }}
              >
                {text}
              </span>
            ))}
        </LaneLayer>
      </div>
    </section>
  );
}
