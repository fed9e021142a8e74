"use client";

import controls from "@/app/parts/controls.module.css";
import { ChangeList } from "./ChangeList";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HearHere } from "./HearHere";
import { SelectedDetails } from "./laterParts";
import { RubbedOut } from "./RubbedOut";
import { SectionList } from "./SectionList";
import { type Selection, selectedRecords } from "./selection";

/** Kinds of a selection that are no records of the song: they are there for as long as they are selected. */
const NO_RECORDS = new Set<NonNullable<Selection>["kind"]>([
  "caret",
  "events",
  "beat",
  "span",
  "band",
  "take",
]);

/** Right: what is selected, who wrote it and when, and what can be done with it. */
export function Details() {
  const { opened, selection, select } = useDesk();
  const isRecord = Object.values(selectedRecords(opened.song, selection)).some((record) => record !== null);
  const isNothing = !isRecord && !(selection && NO_RECORDS.has(selection.kind));
  return (
    <section className={`${styles.column} ${styles.right}`} aria-label="Selected">
      {selection === null ? null : (
        <>
          <button
            type="button"
            className={`${controls.plain} ${styles.leave}`}
            aria-label="Select nothing"
            title="Select nothing (Esc)"
            onClick={() => select(null)}
          >
            ×
          </button>
          <SelectedDetails />
        </>
      )}
      {isNothing ? (
        <>
          <h2>Nothing selected</h2>
          <p className={styles.marks}>
            Click a change or a note to ink or change it, a section to hear that passage, a string in the part
            to write, or drag over the record to select a few bars.
          </p>
        </>
      ) : null}
      {selection?.kind === "span" ? null : <HearHere />}
      <SectionList />
      <ChangeList />
      <RubbedOut />
    </section>
  );
}
