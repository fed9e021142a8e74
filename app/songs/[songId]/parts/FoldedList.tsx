"use client";

import { type ReactNode, useState } from "react";
import styles from "./columns.module.css";

/** A list that is folded away until it is asked for; only then is it drawn. */
export function FoldedList({ summary, children }: { summary: string; children: () => ReactNode }) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className={styles.list} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>{summary}</summary>
      {isOpen ? children() : null}
    </details>
  );
}
