"use client";

import { type ReactNode, useEffect, useId, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import styles from "./dialog.module.css";

/** A sheet over the page: the platform's own dialog, which keeps the focus and closes on Escape. */
export function Sheet({
  title,
  onClose,
  children,
}: {
  title: string;
  onClose: () => void;
  children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog className={styles.dialog} ref={dialog} aria-labelledby={titleId} onClose={onClose}>
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
