"use client";

import { drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { clockText } from "@/lib/client/format/format";
import { textScale } from "@/lib/client/page/textScale";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import lanes from "./lanes.module.css";
import styles from "./ruler.module.css";
import { useSpanDrag } from "./useSpanDrag";

/** Figures stand at least this far apart. */
const LABEL_PX = 56;
const STEPS_SEC = [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300];

/** Minutes and seconds of the record. Click to go there, drag to select. */
export function SecondsRuler() {
  const { axis } = useDesk();
  const drag = useSpanDrag();
  return (
    <section className={styles.secondsRuler} aria-label="Seconds">
      <div className={lanes.gutter} />
      <div className={styles.time} {...drag}>
        <LaneLayer axis={axis}>
          <SecondMarks />
        </LaneLayer>
      </div>
    </section>
  );
}

/** The figures of the drawn stretch. */
export function SecondMarks() {
  const { axis } = useDesk();
  const drawing = useDrawing(axis);
  const { fromSec, toSec, pxPerSec } = drawing;
  const toPx = drawnPx(drawing);
  const everySec = STEPS_SEC.find((sec) => sec * pxPerSec >= LABEL_PX * textScale()) ?? 600;
  const first = Math.max(0, Math.ceil(fromSec / everySec));
  const last = Math.floor(Math.min(toSec, axis.now().durationSec) / everySec);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const sec = (first + index) * everySec;
    return (
      <span key={sec} className={styles.barLabel} style={{ left: toPx(sec) }}>
        {clockText(sec, everySec < 1)}
      </span>
    );
  });
}
