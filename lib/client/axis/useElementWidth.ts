import { type RefObject, useEffect } from "react";

/** Tells an element's width now and whenever it changes. */
export function useElementWidth(
  element: RefObject<HTMLElement | null>,
  onWidth: (widthPx: number) => void,
): void {
  useEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const observer = new ResizeObserver(() => onWidth(watched.clientWidth));
    observer.observe(watched);
    onWidth(watched.clientWidth);
    return () => observer.disconnect();
  }, [element, onWidth]);
}
