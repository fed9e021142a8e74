"use client";

import { type KeyboardEvent, type ReactNode, useEffect, useLayoutEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import styles from "./listPanel.module.css";

/**
 * A list under the lanes, one button an entry: the arrow keys go from entry to entry, and whoever closes it from within
 * is led back to where it was opened.
 * @param className sets `--most-height`
 * @param head what stands between the words about it and its acts
 * @param onEscape where Escape does more than close it
 * @param onPastEdge asked where an arrow key goes over the edge of the list: whether there is more on that side, to be
 * shown now
 */
export function ListPanel({
  label,
  title,
  says,
  className = "",
  head,
  acts,
  onClose,
  onEscape = onClose,
  onPastEdge,
  children,
}: {
  label: string;
  title: string;
  says: string;
  className?: string;
  head?: ReactNode;
  acts: ReactNode;
  onClose: () => void;
  onEscape?: () => void;
  onPastEdge?: (step: -1 | 1) => boolean;
  children: ReactNode;
}) {
  const panel = useRef<HTMLElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const focusAt = useRef<"first" | "last" | null>(null);

  useEffect(() => {
    // Where an arrow key went over the edge of a page, it goes on in the next.
    if (focusAt.current)
      buttons(list.current)
        .at(focusAt.current === "first" ? 0 : -1)
        ?.focus();
    focusAt.current = null;
  });

  // To where it was opened, not to the top of the page.
  useLayoutEffect(() => {
    const opener = document.activeElement;
    const own = panel.current;
    return () => {
      if (own?.contains(document.activeElement) && opener instanceof HTMLElement) opener.focus();
    };
  }, []);

  function onKeyDown(event: KeyboardEvent<HTMLElement>) {
    if (event.key === "Escape") {
      event.stopPropagation();
      onEscape();
      return;
    }
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    const all = buttons(list.current);
    const at = all.findIndex((button) => button.matches(":focus"));
    if (at < 0) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.key === "ArrowUp" ? -1 : 1;
    const next = all[at + step];
    if (next) next.focus();
    else if (onPastEdge?.(step)) focusAt.current = step > 0 ? "first" : "last";
  }

  return (
    <section ref={panel} className={`${styles.panel} ${className}`} aria-label={label} onKeyDown={onKeyDown}>
      <div className={styles.head}>
        <h2>{title}</h2>
        <p role="status">{says}</p>
        {head}
        <div className={styles.acts}>
          {acts}
          <button type="button" className={controls.button} onClick={onClose}>
            Close
          </button>
        </div>
      </div>
      <div ref={list} className={styles.scroll}>
        {children}
      </div>
    </section>
  );
}

function buttons(list: HTMLElement | null): HTMLButtonElement[] {
  return [...(list?.querySelectorAll("button") ?? [])];
}
