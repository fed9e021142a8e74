"use client";

import { useSyncExternalStore } from "react";
import { drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import type { PassageState } from "@/lib/client/hearing/passage/PassageHearer";
import { usePassageState } from "@/lib/client/hearing/passage/usePassageHearer";
import { useDesk } from "./DeskContext";
import { LaneLayer } from "./LaneLayer";
import styles from "./overLanes.module.css";

/** The selected span, through all lanes, how far of a passage is heard, and the loop along their top. */
export function Spans() {
  const { axis, player, selection, hearer } = useDesk();
  const { underWay } = usePassageState(hearer);
  const drawing = useDrawing(axis);
  const toPx = drawnPx(drawing);
  const { loop } = useSyncExternalStore(player.watch, player.now, player.now);
  const placed = (span: { startSec: number; endSec: number }) => ({
    left: toPx(span.startSec),
    width: Math.max(2, Math.round((span.endSec - span.startSec) * drawing.pxPerSec)),
  });
  return (
    <div className={styles.overlay} aria-hidden="true">
      <LaneLayer axis={axis}>
        {selection?.kind === "span" ? <div className={styles.span} style={placed(selection)} /> : null}
        {underWay ? (
          <div className={styles.hearingSpan} style={placed(underWay.passage)}>
            <div style={{ transform: `translateX(${100 * (fractionOf(underWay) - 1)}%)` }} />
          </div>
        ) : null}
        {loop ? <div className={styles.loopSpan} style={placed(loop)} /> : null}
      </LaneLayer>
    </div>
  );
}

/** How far the ear has come. */
function fractionOf({ step }: NonNullable<PassageState["underWay"]>): number {
  return step.name === "hear" ? step.fraction : 0;
}
