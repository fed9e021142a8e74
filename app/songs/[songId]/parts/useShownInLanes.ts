"use client";

import { type RefObject, useEffect } from "react";

/** Room for the rulers above, and for what hangs below a line. */
const ABOVE_PX = 56;
const BELOW_PX = 24;

/**
 * Scrolls the lanes up or down just so far that something in them is in view: when it moves, and when the lanes get
 * lower, as where the bench rises.
 * @param y where it stands; another value says that it moved
 */
export function useShownInLanes(shown: RefObject<Element | null>, y: number): void {
  useEffect(() => {
    const element = shown.current;
    const lanes = element?.closest("main");
    if (!element || !lanes || !Number.isFinite(y)) return;
    const show = () => showIn(lanes, element);
    show();
    const resized = new ResizeObserver(show);
    resized.observe(lanes);
    return () => resized.disconnect();
  }, [shown, y]);
}

/** Scrolls the lanes just so far that something in them is in view, its top at least; the page around them never moves. */
export function showInLanes(element: Element | null): void {
  const lanes = element?.closest("main");
  if (element && lanes) showIn(lanes, element);
}

function showIn(lanes: HTMLElement, element: Element): void {
  const box = element.getBoundingClientRect();
  const room = lanes.getBoundingClientRect();
  const below = box.bottom + BELOW_PX - room.bottom;
  const above = room.top + ABOVE_PX - box.top;
  if (above > 0) lanes.scrollTop -= above;
  else if (below > 0) lanes.scrollTop += Math.min(below, -above);
}
