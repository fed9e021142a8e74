"use client";

import { type ReactNode, useCallback, useRef } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { TimeAxis } from "@/lib/client/axis/timeAxis";
import { useAxisMoves, useDrawing } from "@/lib/client/axis/useAxis";
import styles from "./lanes.module.css";

/**
 * Holds what a lane draws and glides it along with the axis. Pixel 0 of the layer is the anchor of the drawn
 * stretch; only the layer moves, what is in it is drawn anew when the drawn stretch changes. While a zoom goes on it is
 * stretched.
 */
export function LaneLayer({ axis, children }: { axis: AxisStore; children: ReactNode }) {
  const layer = useRef<HTMLDivElement>(null);
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const move = useCallback(
    (now: TimeAxis) => {
      if (!layer.current) return;
      const px = Math.round((anchorSec - now.startSec) * now.pxPerSec);
      const stretched = now.pxPerSec === pxPerSec ? "" : ` scaleX(${now.pxPerSec / pxPerSec})`;
      layer.current.style.transform = `translate3d(${px}px, 0, 0)${stretched}`;
    },
    [anchorSec, pxPerSec],
  );
  useAxisMoves(axis, move);
  return (
    <div className={styles.layer} ref={layer}>
      {children}
    </div>
  );
}
