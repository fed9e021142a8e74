import { type PointerEvent, useEffect, useRef } from "react";
import { snapSec, stepSnap } from "@/lib/client/axis/snap";
import { pxToSec, scrollAxis } from "@/lib/client/axis/timeAxis";
import { useDesk } from "./DeskContext";

/** A press that moves less than this is a click. */
const DRAG_PX = 4;
/** A finger trembles more. */
const TOUCH_PX = 10;
/** A finger that stays for so long selects. */
const LONG_PRESS_MS = 450;
/** What a long press selects where there are no beats. */
const PRESSED_SEC = 1;

/** A press under way, in pixels of the lane. */
interface Press {
  pointerId: number;
  px: number;
  lastPx: number;
  /** What it has become: a click so far, the lane dragged along, or a span being selected. */
  as: "click" | "scroll" | "span";
}

/**
 * Pointer acts of a lane: a click goes there, or does what the lane says instead; a mouse drag selects a span,
 * snapped as the page has it unless Alt is held; a finger drags the lanes along, or, after it has stayed for a moment, selects.
 */
export function useSpanDrag(onTap?: (event: PointerEvent<HTMLElement>) => void) {
  const { axis, snap, grid, player, select } = useDesk();
  const press = useRef<Press | null>(null);
  const staying = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(staying.current), []);

  const pxOf = (event: PointerEvent<HTMLElement>) =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const secAt = (px: number, isFree: boolean) => {
    const sec = pxToSec(axis.now(), px);
    return Math.min(snapSec(grid, isFree ? "off" : snap.now().snap, sec), axis.now().durationSec);
  };
  const selectBetween = (fromPx: number, toPx: number, isFree: boolean) => {
    const [startSec = 0, endSec = 0] = [secAt(fromPx, isFree), secAt(toPx, isFree)].sort((a, b) => a - b);
    if (endSec - startSec > 0.05) select({ kind: "span", startSec, endSec });
  };
  /** From the beat under a finger that stayed to the next; the finger then draws the end along. */
  const selectHere = (begun: Press) => {
    if (press.current !== begun || begun.as !== "click") return;
    begun.as = "span";
    const startSec = secAt(begun.px, false);
    const endSec = Math.min(
      axis.now().durationSec,
      grid ? stepSnap(grid, snap.now().snap, startSec, 1) : startSec + PRESSED_SEC,
    );
    navigator.vibrate?.(10);
    select({ kind: "span", startSec, endSec });
  };
  const leave = () => {
    clearTimeout(staying.current);
    press.current = null;
  };

  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      const px = pxOf(event);
      const begun: Press = { pointerId: event.pointerId, px, lastPx: px, as: "click" };
      press.current = begun;
      clearTimeout(staying.current);
      if (event.pointerType === "touch") staying.current = setTimeout(() => selectHere(begun), LONG_PRESS_MS);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const begun = press.current;
      if (begun?.pointerId !== event.pointerId) return;
      const isTouch = event.pointerType === "touch";
      const px = pxOf(event);
      if (begun.as === "click" && Math.abs(px - begun.px) >= (isTouch ? TOUCH_PX : DRAG_PX)) {
        clearTimeout(staying.current);
        begun.as = isTouch ? "scroll" : "span";
      }
      if (begun.as === "scroll") axis.change((now) => scrollAxis(now, begun.lastPx - px));
      else if (begun.as === "span") selectBetween(begun.px, px, event.altKey);
      begun.lastPx = px;
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      const begun = press.current;
      leave();
      if (begun?.as !== "click") return;
      if (onTap) onTap(event);
      else player.seek(pxToSec(axis.now(), pxOf(event)));
    },
    onPointerCancel: leave,
    onContextMenu(event: { preventDefault(): void }) {
      // A long press on a touch screen asks for the browser's menu too.
      if (press.current?.as === "span") event.preventDefault();
    },
  };
}
