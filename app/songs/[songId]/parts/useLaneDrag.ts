import { useEffect, useRef } from "react";
import { EdgeScroll } from "@/lib/client/axis/EdgeScroll";
import { useDesk } from "./DeskContext";

const FRAMES = { request: requestFrame, cancel: cancelFrame };

/** Where a pointer is, kept longer than its event lives. */
export interface DragPoint {
  clientX: number;
  clientY: number;
  altKey: boolean;
}

/** What all drags over the lanes have in common: near an edge the lanes go along, and Escape gives the drag up. */
export function useLaneDrag(giveUp: () => void) {
  const { axis } = useDesk();
  const edge = useRef<EdgeScroll | null>(null);
  const leave = useRef(giveUp);
  leave.current = giveUp;
  const scope = useRef<AbortController | null>(null);

  function end() {
    edge.current?.end();
    edge.current = null;
    scope.current?.abort();
    scope.current = null;
  }
  useEffect(
    () => () => {
      edge.current?.end();
      scope.current?.abort();
    },
    [],
  );

  return {
    /** Where times are drawn, in pixels of the screen; the lane's own edge, whatever in it is dragged. */
    leftOf(element: Element): number {
      const lane = element.closest("section") ?? element;
      return lane.getBoundingClientRect().right - axis.now().widthPx;
    },
    /** @param px in the lanes @returns kept within them */
    within(px: number): number {
      return Math.min(Math.max(0, px), axis.now().widthPx);
    },
    /**
     * Tells where a drag is. The first time it begins.
     * @param fromPx where it began, in pixels of the lanes
     * @param again draws what is dragged where it then lies
     */
    follow(px: number, fromPx: number, again: () => void) {
      if (!edge.current) {
        const isStill = matchMedia("(prefers-reduced-motion: reduce)").matches;
        edge.current = new EdgeScroll(axis, FRAMES, isStill, fromPx);
        scope.current = new AbortController();
        const onKey = (event: KeyboardEvent) => {
          if (event.key !== "Escape") return;
          event.preventDefault();
          event.stopImmediatePropagation();
          end();
          leave.current();
        };
        window.addEventListener("keydown", onKey, { capture: true, signal: scope.current.signal });
      }
      edge.current.follow(px, again);
    },
    end,
  };
}

function requestFrame(callback: (nowMs: number) => void): number {
  return requestAnimationFrame(callback);
}

function cancelFrame(id: number): void {
  cancelAnimationFrame(id);
}
