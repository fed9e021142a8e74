import { type MouseEvent, type PointerEvent, useEffect, useRef } from "react";
import { snapSec, stepSnap } from "@/lib/client/axis/snap";
import { pxToSec, scrollAxis } from "@/lib/client/axis/timeAxis";
import { useDesk } from "./DeskContext";
import { isOwnTarget } from "./ownTarget";
import type { Selection } from "./selection";
import { useLaneDrag } from "./useLaneDrag";

/** A press that moves less than this is a click. */
const DRAG_PX = 4;
/** A finger trembles more. */
const TOUCH_PX = 10;
/** A finger that stays for so long selects. */
const LONG_PRESS_MS = 450;
/** What a long press selects where there are no beats. */
const PRESSED_SEC = 1;
/** The browser's own click comes no later after a tap. */
const CLICK_WITHIN_MS = 400;
/** What a drag selects is no shorter. */
const SHORTEST_SEC = 0.05;

/** A press under way. */
interface Press {
  pointerId: number;
  track: HTMLElement;
  /** Where it began, in pixels of the lane and in the record, and where it is now. */
  fromPx: number;
  fromSec: number;
  lastPx: number;
  /** What it has become: a click so far, the lane dragged along, or a span being selected. */
  as: "click" | "scroll" | "span";
  /** Whether it began on something that answers clicks itself. */
  isOnOwn: boolean;
  /** What was selected before. */
  before: Selection;
}

/**
 * Pointer acts of a lane: a click goes there, or does what the lane says instead, and buttons in the lane answer theirs; a
 * mouse drag selects a span, snapped as the page has it unless Alt is held; a finger drags the lanes along, or, after it has
 * stayed for a moment, selects.
 */
export function useSpanDrag(onTap?: (event: PointerEvent<HTMLElement>) => void) {
  const { axis, snap, grid, player, selection, select } = useDesk();
  const press = useRef<Press | null>(null);
  const wasDrag = useRef(false);
  const isAnswered = useRef(false);
  const staying = useRef<ReturnType<typeof setTimeout>>(undefined);
  const drag = useLaneDrag(giveUp);
  useEffect(() => () => clearTimeout(staying.current), []);

  const pxOf = (event: PointerEvent<HTMLElement>) =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const snapped = (sec: number, isFree: boolean) =>
    Math.min(snapSec(grid, isFree ? "off" : snap.now().snap, sec), axis.now().durationSec);
  const selectTo = (begun: Press, px: number, isFree: boolean) => {
    const toSec = pxToSec(axis.now(), drag.within(px));
    const [startSec = 0, endSec = 0] = [snapped(begun.fromSec, isFree), snapped(toSec, isFree)].sort(
      (a, b) => a - b,
    );
    if (endSec - startSec > SHORTEST_SEC) select({ kind: "span", startSec, endSec });
  };
  /** From the beat under a finger that stayed to the next; the finger then draws the end along. */
  const selectHere = (begun: Press) => {
    if (press.current !== begun || begun.as !== "click") return;
    begun.as = "span";
    begun.track.setPointerCapture(begun.pointerId);
    const startSec = snapped(begun.fromSec, false);
    const endSec = Math.min(
      axis.now().durationSec,
      grid ? stepSnap(grid, snap.now().snap, startSec, 1) : startSec + PRESSED_SEC,
    );
    navigator.vibrate?.(10);
    select({ kind: "span", startSec, endSec });
  };
  function giveUp() {
    const begun = press.current;
    leave();
    if (begun) select(begun.before);
  }
  function leave() {
    clearTimeout(staying.current);
    drag.end();
    press.current = null;
  }
  /**
   * Clicks what a finger tapped. Browsers give no click of their own for a tap soon after a flick, which they take for one that
   * stops the page, though lanes stand still by then.
   */
  function answerTap(target: EventTarget) {
    isAnswered.current = true;
    setTimeout(() => {
      isAnswered.current = false;
    }, CLICK_WITHIN_MS);
    if (target instanceof Element) target.closest("button")?.click();
  }

  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      wasDrag.current = false;
      if (event.button !== 0 || isOwnTarget(event.target, "field")) return;
      const px = pxOf(event);
      const begun: Press = {
        ...{ pointerId: event.pointerId, track: event.currentTarget, as: "click" },
        ...{ fromPx: px, fromSec: pxToSec(axis.now(), px), lastPx: px },
        isOnOwn: isOwnTarget(event.target, "button"),
        before: selection,
      };
      press.current = begun;
      // What answers clicks itself loses them to whoever holds the pointer; so that is held once it is dragged.
      if (!begun.isOnOwn) event.currentTarget.setPointerCapture(event.pointerId);
      clearTimeout(staying.current);
      if (event.pointerType === "touch") staying.current = setTimeout(() => selectHere(begun), LONG_PRESS_MS);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const begun = press.current;
      if (begun?.pointerId !== event.pointerId) return;
      const isTouch = event.pointerType === "touch";
      // Let go outside, before it was held.
      if (!isTouch && event.buttons === 0) return leave();
      const px = pxOf(event);
      if (begun.as === "click" && Math.abs(px - begun.fromPx) >= (isTouch ? TOUCH_PX : DRAG_PX)) {
        clearTimeout(staying.current);
        begun.as = isTouch ? "scroll" : "span";
        begun.track.setPointerCapture(event.pointerId);
      }
      if (begun.as === "scroll") axis.change((now) => scrollAxis(now, begun.lastPx - px));
      else if (begun.as === "span") {
        const isFree = event.altKey;
        selectTo(begun, px, isFree);
        drag.follow(px, begun.fromPx, () => selectTo(begun, px, isFree));
      }
      begun.lastPx = px;
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      const begun = press.current;
      leave();
      if (begun?.pointerId !== event.pointerId) return;
      if (begun.as !== "click") {
        wasDrag.current = true;
        setTimeout(() => {
          wasDrag.current = false;
        });
      } else if (begun.isOnOwn) {
        if (event.pointerType === "touch") answerTap(event.target);
      } else if (onTap) onTap(event);
      else player.seek(pxToSec(axis.now(), pxOf(event)));
    },
    onPointerCancel: leave,
    onClickCapture(event: MouseEvent) {
      // What was dragged over is not clicked, and what a finger tapped not twice.
      if (wasDrag.current || (isAnswered.current && event.isTrusted)) event.stopPropagation();
    },
    onContextMenu(event: { preventDefault(): void }) {
      // A long press on a touch screen asks for the browser's menu too.
      if (press.current?.as === "span") event.preventDefault();
    },
  };
}
