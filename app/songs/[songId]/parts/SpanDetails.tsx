"use client";

import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { barRepeats } from "@/lib/client/song/sectionWords";
import { inkBassNotes } from "@/lib/document/commands/bass";
import { inkChanges } from "@/lib/document/commands/changes";
import { inkNotes } from "@/lib/document/commands/notes";
import { BassHere } from "./BassHere";
import { bassActs } from "./bassActs";
import { changeActs } from "./changeActs";
import { capital, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HeardHere } from "./HeardHere";
import { LoopIt } from "./LoopIt";
import { hearAlone, noteActs } from "./noteActs";
import { sectionActs } from "./sectionActs";
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
  const pencilledBass = beginningWithin(opened.song.bass, span).filter((note) => note.mark === "pencil");
  const notes = beginningWithin(opened.song.notes, span);
  const pencilledNotes = notes.filter((note) => note.mark === "pencil");
  const repeats = barRepeats(opened.song.sections, span.startSec, grid);
  return (
    <>
      <h2>Selection</h2>
      <p>{capital(stretchWords(grid, span.startSec, span.endSec))}</p>
      {repeats ? <p>{repeats}</p> : null}
      <BassHere span={span} />
      <HeardHere span={span} />
      <div className={styles.acts}>
        <LoopIt />
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, span.startSec, span.endSec))}
        >
          Show it whole
        </button>
        {notes.length > 0 ? (
          <button type="button" className={controls.button} onClick={() => hearAlone(desk, notes)}>
            Hear its notes alone
          </button>
        ) : null}
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
            <button
              type="button"
              className={controls.button}
              disabled={pencilledBass.length === 0}
              onClick={() =>
                opened.acts.run((ctx) =>
                  inkBassNotes(
                    ctx,
                    pencilledBass.map((note) => note.id),
                  ),
                )
              }
            >
              Ink its bass
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={pencilledNotes.length === 0}
              onClick={() =>
                opened.acts.run((ctx) =>
                  inkNotes(
                    ctx,
                    pencilledNotes.map((note) => note.id),
                  ),
                )
              }
            >
              Ink its notes
            </button>
            <button type="button" className={controls.button} onClick={sectionActs(desk).add}>
              Name this passage
            </button>
            <button type="button" className={controls.button} onClick={changeActs(desk).add}>
              Write a change here
            </button>
            <button type="button" className={controls.button} onClick={bassActs(desk).add}>
              Write a bass note here
            </button>
            <button type="button" className={controls.button} onClick={noteActs(desk).add}>
              Write a steel note here
            </button>
          </>
        ) : null}
      </div>
    </>
  );
}
