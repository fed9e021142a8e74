"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";

/** The beat in hand, through all lanes. */
export function BeatInHandLine() {
  const { axis, selection } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  if (selection?.kind !== "beat") return null;
  return (
    <i className={styles.line} style={{ left: Math.round((selection.timeSec - anchorSec) * pxPerSec) }} />
  );
}
