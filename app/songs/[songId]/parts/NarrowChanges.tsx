"use client";

import { memo } from "react";
import { type DrawnStretch, drawnPx, drawnWidthPx } from "@/lib/client/axis/timeAxis";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import styles from "./changes.module.css";

/** Height of the lane and its middle, in the drawing's own units; it is stretched to the lane. */
const HEIGHT = 10;
const MIDDLE = 5;

/** How far changes go that are too narrow for boxes: two paths however many there are, solid in ink and dashed in pencil. */
export const NarrowChanges = memo(function NarrowChanges({
  changes,
  drawing,
}: {
  changes: readonly ShownChange[];
  drawing: DrawnStretch;
}) {
  if (changes.length === 0) return null;
  const toPx = drawnPx(drawing);
  const width = drawnWidthPx(drawing);
  const lines = (mark: "pencil" | "ink") =>
    changes
      .filter((change) => change.mark === mark)
      .map(
        ({ startSec, endSec }) =>
          `M${toPx(startSec)} ${MIDDLE}H${Math.max(toPx(startSec) + 1, toPx(endSec))}`,
      )
      .join("");
  return (
    <svg
      className={styles.narrowOnes}
      width={width}
      viewBox={`0 0 ${width} ${HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path className={styles.narrowPencil} d={lines("pencil")} />
      <path className={styles.narrowInk} d={lines("ink")} />
    </svg>
  );
});
