"use client";

import { ChangeDetails } from "./ChangeDetails";
import { ChangeList } from "./ChangeList";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { EventDetails } from "./EventDetails";
import { RubbedOut } from "./RubbedOut";
import { SpanDetails } from "./SpanDetails";
import { selectedChange } from "./selection";

/** Right: what is selected, who wrote it and when, and what can be done with it. */
export function Details() {
  const { opened, selection } = useDesk();
  const change = selectedChange(opened.song, selection);
  return (
    <section className={`${styles.column} ${styles.right}`} aria-label="Selected">
      {change ? <ChangeDetails change={change} /> : null}
      {selection?.kind === "caret" ? <EventDetails caret={selection.caret} /> : null}
      {selection?.kind === "span" ? <SpanDetails /> : null}
      {selection === null || (selection.kind === "change" && !change) ? (
        <>
          <h2>Nothing selected</h2>
          <p className={styles.marks}>
            Click a change to ink or change it, a string in the part to write, or drag over the record to
            select a few bars.
          </p>
        </>
      ) : null}
      <ChangeList />
      <RubbedOut />
    </section>
  );
}
