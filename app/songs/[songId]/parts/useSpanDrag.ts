import { type PointerEvent, useRef } from "react";
import { snapToBeat } from "@/lib/client/axis/songGrid";
import { pxToSec, scrollAxis } from "@/lib/client/axis/timeAxis";
import { useDesk } from "./DeskContext";

/** A press that moves less than this is a click. */
const DRAG_PX = 4;

/**
 * Pointer acts of a lane: a click goes there, or does what the lane says instead; a mouse drag selects a span,
 * snapped to beats unless Alt is held; a finger drags the lanes along.
 */
export function useSpanDrag(onTap?: (event: PointerEvent<HTMLElement>) => void) {
  const { axis, grid, player, select } = useDesk();
  const begun = useRef<{ px: number; lastPx: number; dragged: boolean } | null>(null);

  const pxOf = (event: PointerEvent<HTMLElement>) =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const secAt = (px: number, isFree: boolean) => {
    const sec = pxToSec(axis.now(), px);
    return grid && !isFree ? Math.min(snapToBeat(grid, sec), axis.now().durationSec) : sec;
  };

  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      const px = pxOf(event);
      begun.current = { px, lastPx: px, dragged: false };
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const drag = begun.current;
      if (!drag) return;
      const px = pxOf(event);
      if (Math.abs(px - drag.px) >= DRAG_PX) drag.dragged = true;
      if (!drag.dragged) return;
      if (event.pointerType === "touch") axis.change((now) => scrollAxis(now, drag.lastPx - px));
      else {
        const ends = [secAt(drag.px, event.altKey), secAt(px, event.altKey)].sort((a, b) => a - b);
        const [startSec = 0, endSec = 0] = ends;
        if (endSec - startSec > 0.05) select({ kind: "span", startSec, endSec });
      }
      drag.lastPx = px;
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      const drag = begun.current;
      begun.current = null;
      if (!drag || drag.dragged) return;
      if (onTap) onTap(event);
      else player.seek(pxToSec(axis.now(), pxOf(event)));
    },
    onPointerCancel() {
      begun.current = null;
    },
  };
}
