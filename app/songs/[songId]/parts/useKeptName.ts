import { type RefObject, useCallback, useEffect, useLayoutEffect, useRef } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import { useDrawing } from "@/lib/client/axis/useAxis";

/**
 * Keeps the name of a long box in view when the box begins left of it: moves the name along within the box. Only boxes that
 * have room for that listen to the axis, and only where it changes is anything written.
 * @param leftPx where the box begins, in pixels of the lanes' layer
 * @param roomPx how far the name may go
 */
export function useKeptName(
  axis: AxisStore,
  leftPx: number,
  roomPx: number,
): RefObject<HTMLSpanElement | null> {
  const name = useRef<HTMLSpanElement>(null);
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const keep = useCallback(() => {
    const viewLeftPx = Math.round((axis.now().startSec - anchorSec) * pxPerSec);
    const px = Math.min(roomPx, Math.max(0, viewLeftPx - leftPx));
    const moved = px === 0 ? "" : `translateX(${px}px)`;
    if (name.current && name.current.style.transform !== moved) name.current.style.transform = moved;
  }, [axis, anchorSec, pxPerSec, leftPx, roomPx]);
  // Each time, since the name itself may be a new one.
  useLayoutEffect(keep);
  useEffect(() => (roomPx > 0 ? axis.onMove(keep) : undefined), [axis, keep, roomPx]);
  return name;
}
