"use client";

import { type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { PAGE_ROWS, pageAt, pageOf } from "@/lib/client/song/notePages";
import { useDesk } from "./DeskContext";
import { NoteRow } from "./NoteRow";
import { noteActs } from "./noteActs";
import styles from "./notesTable.module.css";

const COLUMNS = ["Start", "End", "Note", "Off", "Moves", "Whose", "Mark"] as const;

/**
 * The heard notes as a table, page by page, for those who hear the page or would rather read: from each row its note is
 * selected, and the arrow keys go from row to row.
 */
export function NotesTable() {
  const desk = useDesk();
  const { heardList, axis, openTable, band } = desk;
  const { chosen, choose } = noteActs(desk);
  const [asked, setAsked] = useState(() => pageAt(heardList, chosen?.startSec ?? axis.now().startSec));
  const table = useRef<HTMLTableElement>(null);
  const panel = useRef<HTMLElement>(null);
  const focusAt = useRef<"first" | "last" | null>(null);
  const { page, first, rows, count } = pageOf(heardList, asked);

  useEffect(() => {
    // Where an arrow key went over the edge of a page, it goes on in the next.
    if (focusAt.current)
      buttons(table.current)
        .at(focusAt.current === "first" ? 0 : -1)
        ?.focus();
    focusAt.current = null;
  });

  const chosenAt = chosen ? heardList.findIndex(({ id }) => id === chosen.id) : -1;
  useEffect(() => {
    if (chosenAt >= 0) setAsked(Math.floor(chosenAt / PAGE_ROWS));
  }, [chosenAt]);

  // Whoever closes it from within is led back to where it was opened, not to the top of the page.
  useLayoutEffect(() => {
    const opener = document.activeElement;
    const own = panel.current;
    return () => {
      if (own?.contains(document.activeElement) && opener instanceof HTMLElement) opener.focus();
    };
  }, []);

  function onKeyDown(event: KeyboardEvent<HTMLElement>) {
    if (event.key === "Escape") {
      event.stopPropagation();
      openTable(false);
      return;
    }
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    const all = buttons(table.current);
    const at = all.findIndex((button) => button.matches(":focus"));
    if (at < 0) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.key === "ArrowUp" ? -1 : 1;
    const next = all[at + step];
    if (next) next.focus();
    else if (page + step >= 0 && page + step < count) {
      focusAt.current = step > 0 ? "first" : "last";
      setAsked(page + step);
    }
  }

  return (
    <section ref={panel} className={styles.panel} aria-label="List of heard notes" onKeyDown={onKeyDown}>
      <div className={styles.head}>
        <h2>Heard notes</h2>
        <p role="status">
          {heardList.length === 0
            ? "None heard so far."
            : `${first + 1} to ${first + rows.length} of ${heardList.length}${band.isWanted ? ", the band's among them" : ""}`}
        </p>
        <div className={styles.acts}>
          <button
            type="button"
            className={controls.button}
            disabled={page === 0}
            onClick={() => setAsked(page - 1)}
          >
            Earlier
          </button>
          <button
            type="button"
            className={controls.button}
            disabled={page === count - 1}
            onClick={() => setAsked(page + 1)}
          >
            Later
          </button>
          <button
            type="button"
            className={controls.button}
            onClick={() => setAsked(pageAt(heardList, axis.now().startSec))}
          >
            From what is in view
          </button>
          <button type="button" className={controls.button} onClick={() => openTable(false)}>
            Close
          </button>
        </div>
      </div>
      <div className={styles.scroll}>
        <table ref={table} className={styles.table}>
          <thead>
            <tr>
              {COLUMNS.map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((note) => (
              <NoteRow
                key={note.id}
                note={note}
                isChosen={chosen?.id === note.id}
                onChoose={() => choose(note)}
              />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function buttons(table: HTMLTableElement | null): HTMLButtonElement[] {
  return [...(table?.querySelectorAll("button") ?? [])];
}
