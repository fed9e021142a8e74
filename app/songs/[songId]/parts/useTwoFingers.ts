import { type RefObject, useEffect } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import { scrollAxis, zoomAxis } from "@/lib/client/axis/timeAxis";

/** Fingers nearer to each other than this zoom no further: a small move would be a large factor. */
const LEAST_APART_PX = 24;

/**
 * Two fingers anywhere on the lanes zoom by how far apart they go, about their middle, and scroll by where that goes. What the
 * first finger had begun in a lane is given up.
 * @param track an element that lies where times lie
 */
export function useTwoFingers(
  lanes: RefObject<HTMLElement | null>,
  track: RefObject<HTMLElement | null>,
  axis: AxisStore,
): void {
  useEffect(() => {
    const column = lanes.current;
    if (!column) return;
    const scope = new AbortController();
    const fingers = new Map<number, number>();
    let firstTarget: EventTarget | null = null;
    let isPinching = false;

    const spread = () => {
      const [a = 0, b = a] = [...fingers.values()];
      return { middlePx: (a + b) / 2, apartPx: Math.max(LEAST_APART_PX, Math.abs(a - b)) };
    };
    const begin = (event: PointerEvent) => {
      if (event.pointerType !== "touch") return;
      fingers.set(event.pointerId, event.clientX);
      if (fingers.size < 2) {
        firstTarget = event.target;
        return;
      }
      event.stopPropagation();
      if (isPinching) return;
      isPinching = true;
      const [first] = fingers.keys();
      // The lane of the first finger hears of it no more, whatever the second lies on; it must not take the next move of a mouse for it.
      firstTarget?.dispatchEvent(new PointerEvent("pointercancel", { pointerId: first, bubbles: true }));
    };
    const move = (event: PointerEvent) => {
      if (!fingers.has(event.pointerId)) return;
      if (!isPinching) {
        fingers.set(event.pointerId, event.clientX);
        return;
      }
      event.stopPropagation();
      const before = spread();
      fingers.set(event.pointerId, event.clientX);
      const now = spread();
      const leftPx = track.current?.getBoundingClientRect().left ?? 0;
      axis.glide((drawn) =>
        zoomAxis(
          scrollAxis(drawn, before.middlePx - now.middlePx),
          now.apartPx / before.apartPx,
          now.middlePx - leftPx,
        ),
      );
    };
    const end = (event: PointerEvent) => {
      // The word to the lane that its finger is given up goes through.
      if (!event.isTrusted || !fingers.delete(event.pointerId)) return;
      if (isPinching) event.stopPropagation();
      if (fingers.size === 0) isPinching = false;
    };
    const options = { capture: true, signal: scope.signal };
    column.addEventListener("pointerdown", begin, options);
    column.addEventListener("pointermove", move, options);
    column.addEventListener("pointerup", end, options);
    column.addEventListener("pointercancel", end, options);
    return () => scope.abort();
  }, [lanes, track, axis]);
}
