import { type PointerEvent, useRef, useState } from "react";
import { useDesk } from "./DeskContext";
import { type DragPoint, useLaneDrag } from "./useLaneDrag";

/** A press that moves less than this is a click; a finger trembles more. */
const DRAG_PX = { mouse: 4, touch: 10 };

interface Press {
  pointerId: number;
  /** Where times begin on the screen, where it was pressed in the lanes, and how far from the thing's own time. */
  leftPx: number;
  fromPx: number;
  awaySec: number;
  isDrag: boolean;
}

/**
 * One thing of a lane that is dragged along the axis: an edge, a beat, a bar.
 * @param sec where it stands
 */
export function useTimeDrag({
  sec,
  mayDrag,
  isForFingers,
  place,
  drop,
  click,
}: {
  sec: number;
  mayDrag: boolean;
  /** Whether a finger takes hold of it; else one that begins here drags the lanes along. */
  isForFingers: boolean;
  /** Where it would come to stand. @param isFree whether Alt leaves the snap */
  place: (sec: number, isFree: boolean) => number;
  drop: (sec: number, isAlt: boolean) => void;
  click: () => void;
}) {
  const { axis } = useDesk();
  const press = useRef<Press | null>(null);
  const [movedSec, setMovedSec] = useState<number | null>(null);
  const drag = useLaneDrag(leave);

  function leave() {
    press.current = null;
    drag.end();
    setMovedSec(null);
  }

  function secAt(begun: Press, { clientX, altKey }: DragPoint): number {
    const { startSec, pxPerSec, durationSec } = axis.now();
    const at = startSec + drag.within(clientX - begun.leftPx) / pxPerSec - begun.awaySec;
    return place(Math.min(Math.max(0, at), durationSec), altKey);
  }

  return {
    /** Where it is dragged to; null while it is not. */
    movedSec,
    handlers: {
      onPointerDown(event: PointerEvent<HTMLElement>) {
        const isFinger = event.pointerType === "touch";
        if (event.button !== 0 || (isFinger && !isForFingers)) return;
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        const { startSec, pxPerSec } = axis.now();
        const leftPx = drag.leftOf(event.currentTarget);
        const fromPx = event.clientX - leftPx;
        const awaySec = startSec + fromPx / pxPerSec - sec;
        press.current = { pointerId: event.pointerId, leftPx, fromPx, awaySec, isDrag: false };
      },
      onPointerMove(event: PointerEvent<HTMLElement>) {
        const begun = press.current;
        if (begun?.pointerId !== event.pointerId) return;
        event.stopPropagation();
        const px = event.clientX - begun.leftPx;
        const leastPx = DRAG_PX[event.pointerType === "touch" ? "touch" : "mouse"];
        if (!mayDrag || (!begun.isDrag && Math.abs(px - begun.fromPx) < leastPx)) return;
        begun.isDrag = true;
        const { clientX, clientY, altKey } = event;
        const draw = () => setMovedSec(secAt(begun, { clientX, clientY, altKey }));
        draw();
        drag.follow(px, begun.fromPx, draw);
      },
      onPointerUp(event: PointerEvent<HTMLElement>) {
        const begun = press.current;
        if (begun?.pointerId !== event.pointerId) return;
        event.stopPropagation();
        leave();
        if (begun.isDrag) drop(secAt(begun, event), event.altKey);
        else click();
      },
      onPointerCancel: leave,
    },
  };
}
