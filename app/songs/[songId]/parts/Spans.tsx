"use client";

import { useSyncExternalStore } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";

/** The selected span, through all lanes, and the loop along their top. */
export function Spans() {
  const { axis, player, selection } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const { loop } = useSyncExternalStore(player.watch, player.now, player.now);
  const placed = (span: { startSec: number; endSec: number }) => ({
    left: Math.round((span.startSec - anchorSec) * pxPerSec),
    width: Math.max(2, Math.round((span.endSec - span.startSec) * pxPerSec)),
  });
  return (
    <div className={styles.overlay} aria-hidden="true">
      <LaneLayer axis={axis}>
        {selection?.kind === "span" ? <div className={styles.span} style={placed(selection)} /> : null}
        {loop ? <div className={styles.loopSpan} style={placed(loop)} /> : null}
      </LaneLayer>
    </div>
  );
}
