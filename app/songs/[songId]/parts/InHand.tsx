"use client";

import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { changeActs } from "./changeActs";
import { changeText } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./desk.module.css";
import { LoopIt } from "./LoopIt";
import { partActs } from "./partActs";
import { keyAt, selectedSpan } from "./selection";

/** On a narrow screen, where the columns are folded: what is selected, with the acts that are wanted most. */
export function InHand() {
  const desk = useDesk();
  const { opened, selection, grid, mayWrite } = desk;
  const span = selectedSpan(opened.song, selection, grid);
  if (!span) return null;
  const { change, ink: inkChange, step } = changeActs(desk);
  const { event, caret, ink: inkEvent } = partActs(desk);
  const mark = change?.mark ?? event?.mark ?? null;
  return (
    <section className={styles.inHand} aria-label="In hand">
      <p>
        <strong>{what()}</strong> {placeWords(grid, span.startSec)}
      </p>
      {mayWrite && mark === "pencil" ? (
        <button type="button" className={controls.act} onClick={change ? inkChange : inkEvent}>
          Ink it
        </button>
      ) : null}
      <LoopIt />
      {change ? (
        <button type="button" className={controls.button} onClick={() => step(1)}>
          Next
        </button>
      ) : null}
    </section>
  );

  function what(): string {
    if (change) {
      const { degree, rest, letters } = changeText(change.label, keyAt(opened.song, change.startSec));
      return `${degree}${rest} ${letters}`.trim();
    }
    if (event) return `${event.strings.join("·")} fret ${event.fret} ${event.changes.join("+")}`.trim();
    return caret ? `String ${caret.string}` : "Selection";
  }
}
