"use client";

import type { ReactNode } from "react";
import { dayText, momentText } from "@/lib/client/format/format";
import { initials } from "@/lib/client/song/presence";
import { capital } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./questions.module.css";

/** Who said something, by name and by a mark of their own, and when. */
export function SaidBy({ by, atMs, children }: { by: string; atMs: number; children?: ReactNode }) {
  const { page, nameOf } = useDesk();
  const isMe = by === page.me.id;
  return (
    <p className={styles.by}>
      <span className={`${styles.mark} ${isMe ? styles.me : ""}`} aria-hidden="true">
        {initials(isMe ? page.me.name : nameOf(by))}
      </span>
      <span className={styles.name}>{capital(nameOf(by))}</span>
      {children}
      <time className={styles.when} dateTime={new Date(atMs).toISOString()} title={momentText(atMs)}>
        {dayText(atMs)}
      </time>
    </p>
  );
}
