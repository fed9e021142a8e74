"use client";

import { type ReactNode, useCallback, useRef } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { TimeAxis } from "@/lib/client/axis/timeAxis";
import { useAxisMoves, useDrawing } from "@/lib/client/axis/useAxis";
import styles from "./lanes.module.css";

/**
 * Holds what a lane draws and glides it along with the axis. Pixel 0 of the layer is the anchor of the drawn
 * stretch; only the layer moves, what is in it is drawn anew when the drawn stretch changes.
 */
export function LaneLayer({ axis, children }: { axis: AxisStore; children: ReactNode }) {
  const layer = useRef<HTMLDivElement>(null);
  const { anchorSec } = useDrawing(axis);
  const move = useCallback(
    (now: TimeAxis) => {
      const px = Math.round((anchorSec - now.startSec) * now.pxPerSec);
      if (!layer.current) return;
      layer.current.style.transform = `translate3d(${px}px, 0, 0)`;
      layer.current.style.setProperty("--view-left", `${-px}px`);
    },
    [anchorSec],
  );
  useAxisMoves(axis, move);
  return (
    <div className={styles.layer} ref={layer}>
      {children}
    </div>
  );
}
