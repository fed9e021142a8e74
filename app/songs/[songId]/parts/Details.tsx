"use client";

import { ChangeList } from "./ChangeList";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HearHere } from "./HearHere";
import { SelectedDetails } from "./laterParts";
import { RubbedOut } from "./RubbedOut";
import { SectionList } from "./SectionList";
import {
  selectedChange,
  selectedHeard,
  selectedHome,
  selectedNote,
  selectedSection,
  selectedStudy,
} from "./selection";

/** Right: what is selected, who wrote it and when, and what can be done with it. */
export function Details() {
  const { opened, selection } = useDesk();
  const { song } = opened;
  const change = selectedChange(song, selection);
  const note = selectedNote(song, selection);
  const heard = selectedHeard(song, selection);
  const section = selectedSection(song, selection);
  const home = selectedHome(song, selection);
  const study = selectedStudy(song, selection);
  const isNothing =
    !(change || note || heard || section || home || study) &&
    selection?.kind !== "caret" &&
    selection?.kind !== "events" &&
    selection?.kind !== "beat" &&
    selection?.kind !== "span" &&
    selection?.kind !== "band";
  return (
    <section className={`${styles.column} ${styles.right}`} aria-label="Selected">
      {selection === null ? null : <SelectedDetails />}
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
