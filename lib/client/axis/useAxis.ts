import { startTransition, useEffect, useState } from "react";
import type { AxisStore } from "./AxisStore";
import type { DrawnStretch, TimeAxis } from "./timeAxis";

/**
 * What a lane draws; the component renders again only when the lanes must be drawn anew. Where that can wait it is done in
 * portions between frames, all lanes together, so that no frame is missed for it.
 */
export function useDrawing(axis: AxisStore): DrawnStretch {
  const [drawing, setDrawing] = useState(axis.drawing);
  useEffect(() => {
    const tell = (isUrgent: boolean) => {
      if (isUrgent) setDrawing(axis.drawing());
      else startTransition(() => setDrawing(axis.drawing()));
    };
    tell(true);
    return axis.onDraw(tell);
  }, [axis]);
  return drawing;
}

/** Calls `onMove` with the axis now and on every move, without rendering. It must keep its identity. */
export function useAxisMoves(axis: AxisStore, onMove: (axis: TimeAxis) => void): void {
  useEffect(() => {
    const tell = () => onMove(axis.now());
    tell();
    return axis.onMove(tell);
  }, [axis, onMove]);
}
