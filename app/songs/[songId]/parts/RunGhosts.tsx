"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { changeText } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./run.module.css";
import { runActs } from "./runActs";
import { numberKeyAt } from "./selection";

/** The changes of a run that is being typed, where they would fall. */
export function RunGhosts() {
  const desk = useDesk();
  const { axis, opened } = desk;
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  const { run } = runActs(desk).read();
  if (!run) return null;
  return run.changes.map(({ startSec, endSec, label }) => {
    if (endSec < fromSec || startSec > toSec) return null;
    const { degree, rest } = changeText(label, numberKeyAt(opened.song, startSec));
    const left = Math.round((startSec - anchorSec) * pxPerSec);
    const width = Math.max(2, Math.round((endSec - anchorSec) * pxPerSec) - left - 2);
    return (
      <span
        key={startSec}
        className={styles.ghost}
        style={{ left, width }}
        aria-hidden="true"
        data-ghost={label}
      >
        {degree}
        {rest}
      </span>
    );
  });
}
