"use client";

import { useRef } from "react";
import styles from "./part.module.css";
import { useShownInLanes } from "./useShownInLanes";

/** Where a passage was written into the part, brought into view when it is. */
export function PassageFrame({ x, width, height }: { x: number; width: number; height: number }) {
  const frame = useRef<SVGRectElement>(null);
  useShownInLanes(frame, 0);
  return <rect ref={frame} className={styles.passage} x={x - 4} y="0" width={width} height={height} rx="4" />;
}
