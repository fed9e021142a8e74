"use client";

import { type ReactNode, useId, useLayoutEffect, useRef } from "react";
import controls from "./controls.module.css";
import styles from "./Sheet.module.css";

/** A sheet over the page: the platform's own dialog, which keeps the focus and closes on Escape. */
export function Sheet({
  title,
  size = "usual",
  onClose,
  children,
}: {
  title: string;
  /** Narrow for a few lines of words, wide for columns. */
  size?: "narrow" | "usual" | "wide";
  onClose: () => void;
  children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  // Closed while it is still in the page, so that the focus goes back to where it was.
  useLayoutEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      className={`${styles.dialog} ${size === "usual" ? "" : styles[size]}`}
      ref={dialog}
      aria-labelledby={titleId}
      onClose={() => !dialog.current?.open && onClose()}
    >
      <header className={styles.head}>
        <h2 id={titleId}>{title}</h2>
        <button type="button" className={controls.button} onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </dialog>
  );
}
