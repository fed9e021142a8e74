"use client";

import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { inkChanges } from "@/lib/document/commands/changes";
import { changeActs } from "./changeActs";
import { stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { LoopIt } from "./LoopIt";
import { selectedSpan } from "./selection";

/** A selected span of time. */
export function SpanDetails() {
  const desk = useDesk();
  const { opened, selection, grid, axis, mayWrite } = desk;
  const span = selectedSpan(opened.song, selection, grid);
  if (!span) return null;
  const pencilled = opened.song.changes.filter(
    (change) =>
      change.mark === "pencil" &&
      change.endSec > span.startSec + 0.02 &&
      change.startSec < span.endSec - 0.02,
  );
  return (
    <>
      <h2>Selection</h2>
      <p>{stretchWords(grid, span.startSec, span.endSec)}</p>
      <div className={styles.acts}>
        <LoopIt />
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, span.startSec, span.endSec))}
        >
          Show it whole
        </button>
        {mayWrite ? (
          <>
            <button
              type="button"
              className={controls.button}
              disabled={pencilled.length === 0}
              onClick={() =>
                opened.acts.run((ctx) =>
                  inkChanges(
                    ctx,
                    pencilled.map((change) => change.id),
                  ),
                )
              }
            >
              Ink its changes
            </button>
            <button type="button" className={controls.button} onClick={changeActs(desk).add}>
              Write a change here
            </button>
          </>
        ) : null}
      </div>
    </>
  );
}
