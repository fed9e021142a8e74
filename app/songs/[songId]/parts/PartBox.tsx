"use client";

import { type DrawnStretch, drawnPx } from "@/lib/client/axis/timeAxis";
import type { Caret } from "@/lib/client/song/partTyping";
import styles from "./part.module.css";
import { stringPx, stringY } from "./partLayout";

/** The box that is being drawn about events. */
export function PartBox({
  box: { from, to },
  strings,
  drawing,
}: {
  box: { from: Caret; to: Caret };
  strings: readonly number[];
  drawing: DrawnStretch;
}) {
  const toPx = drawnPx(drawing);
  const [left, right] = [toPx(from.timeSec), toPx(to.timeSec)].sort((a, b) => a - b) as [number, number];
  const [top, bottom] = [stringY(strings, from.string), stringY(strings, to.string)].sort(
    (a, b) => a - b,
  ) as [number, number];
  return (
    <rect
      className={styles.box}
      x={left}
      y={top - stringPx() / 2}
      width={Math.max(1, right - left)}
      height={bottom - top + stringPx()}
    />
  );
}
