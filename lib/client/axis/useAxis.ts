import { useEffect, useSyncExternalStore } from "react";
import type { AxisStore } from "./AxisStore";
import type { DrawnStretch, TimeAxis } from "./timeAxis";

/** What a lane draws; the component renders again only when the lanes must be drawn anew. */
export function useDrawing(axis: AxisStore): DrawnStretch {
  return useSyncExternalStore(axis.onDraw, axis.drawing, axis.drawing);
}

/** Calls `onMove` with the axis now and on every move, without rendering. It must keep its identity. */
export function useAxisMoves(axis: AxisStore, onMove: (axis: TimeAxis) => void): void {
  useEffect(() => {
    const tell = () => onMove(axis.now());
    tell();
    return axis.onMove(tell);
  }, [axis, onMove]);
}
