"use client";

import { useRef } from "react";
import styles from "./part.module.css";
import { useShownInLanes } from "./useShownInLanes";

/** Where the next key is written. */
export function PartCaret({ x, y }: { x: number; y: number }) {
  const caret = useRef<SVGRectElement>(null);
  useShownInLanes(caret, y);
  return <rect ref={caret} className={styles.caret} x={x - 4} y={y - 10} width="20" height="20" rx="3" />;
}
