"use client";

import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { pencilledIds } from "@/lib/client/song/pencilledIds";
import { barRepeats } from "@/lib/client/song/sectionWords";
import { inkBassNotes } from "@/lib/document/commands/bass";
import { inkChanges } from "@/lib/document/commands/changes";
import { inkNotes } from "@/lib/document/commands/notes";
import { inkPartEvents } from "@/lib/document/commands/part";
import { freeAt } from "@/lib/notation/beats/freeTime";
import type { OnIds } from "./alongActs";
import { BassHere } from "./BassHere";
import { bassActs } from "./bassActs";
import { beatActs } from "./beatActs";
import { changeActs } from "./changeActs";
import { capital, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { fitActs } from "./fitActs";
import { HeardHere } from "./HeardHere";
import { HearHere } from "./HearHere";
import { homeActs } from "./homeActs";
import { noteActs } from "./noteActs";
import { PlayIt } from "./PlayIt";
import { runActs } from "./runActs";
import { StretchNotes } from "./StretchNotes";
import { sectionActs } from "./sectionActs";
import { selectedSpan } from "./selection";
import { studyActs } from "./studyActs";

/** A selected span of time. */
export function SpanDetails() {
  const desk = useDesk();
  const { opened, selection, grid, axis, mayWrite } = desk;
  const span = selectedSpan(opened.song, selection, grid);
  if (!span) return null;
  const changes = opened.song.changes.filter(
    ({ startSec, endSec }) => endSec > span.startSec + 0.02 && startSec < span.endSec - 0.02,
  );
  const bass = beginningWithin(opened.song.bass, span);
  const notes = beginningWithin(opened.song.notes, span);
  const part = beginningWithin(opened.song.part, span);
  const repeats = barRepeats(opened.song.sections, span.startSec, grid);
  return (
    <>
      <h2>Selection</h2>
      <p>{capital(stretchWords(grid, span.startSec, span.endSec))}</p>
      {repeats ? <p>{repeats}</p> : null}
      <BassHere span={span} />
      <HeardHere span={span} />
      <HearHere />
      <StretchNotes />
      <div className={styles.acts}>
        <PlayIt />
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, span.startSec, span.endSec))}
        >
          Show it whole
        </button>
        {part.length > 1 ? (
          <button type="button" className={controls.button} onClick={() => void fitActs(desk).check()}>
            Check the passage
          </button>
        ) : null}
        {mayWrite ? (
          <>
            <InkButton words="Ink its changes" ids={pencilledIds(changes)} ink={inkChanges} />
            <InkButton words="Ink its bass" ids={pencilledIds(bass)} ink={inkBassNotes} />
            <InkButton words="Ink its notes" ids={pencilledIds(notes)} ink={inkNotes} />
            <InkButton words="Ink its part" ids={pencilledIds(part)} ink={inkPartEvents} />
            <button
              type="button"
              className={controls.button}
              disabled={!beatActs(desk).grid}
              onClick={beatActs(desk).free}
            >
              {opened.song.grid && freeAt(opened.song.grid.freeStretches, (span.startSec + span.endSec) / 2)
                ? "Not free time"
                : "Free time"}
            </button>
            <button type="button" className={controls.button} onClick={studyActs(desk).make}>
              Make it a passage
            </button>
            <button type="button" className={controls.button} onClick={sectionActs(desk).add}>
              Make it a section
            </button>
            <button type="button" className={controls.button} onClick={changeActs(desk).add}>
              Write a change here
            </button>
            <button type="button" className={controls.button} onClick={() => runActs(desk).open()}>
              Type changes in a run
            </button>
            <button type="button" className={controls.button} onClick={homeActs(desk).addHere}>
              Home changes here
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

function InkButton({ words, ids, ink }: { words: string; ids: readonly string[]; ink: OnIds }) {
  const { run } = useDesk().opened.acts;
  return (
    <button
      type="button"
      className={controls.button}
      disabled={ids.length === 0}
      onClick={() => run((ctx) => ink(ctx, ids))}
    >
      {words}
    </button>
  );
}
