"use client";

import { useEffect, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { PAGE_ROWS, pageAt, pageOf } from "@/lib/client/song/notePages";
import { useDesk } from "./DeskContext";
import { ListPanel } from "./ListPanel";
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
  const { page, first, rows, count } = pageOf(heardList, asked);

  const chosenAt = chosen ? heardList.findIndex(({ id }) => id === chosen.id) : -1;
  useEffect(() => {
    if (chosenAt >= 0) setAsked(Math.floor(chosenAt / PAGE_ROWS));
  }, [chosenAt]);

  function turn(step: -1 | 1): boolean {
    if (page + step < 0 || page + step >= count) return false;
    setAsked(page + step);
    return true;
  }

  return (
    <ListPanel
      label="List of heard notes"
      title="Heard notes"
      says={
        heardList.length === 0
          ? desk.covered.stretches.heard.length > 0
            ? "Covered: make your guess."
            : "None heard so far."
          : `${first + 1} to ${first + rows.length} of ${heardList.length}${band.isWanted ? ", the band's among them" : ""}`
      }
      className={styles.panel}
      acts={
        <>
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
        </>
      }
      onClose={() => openTable(false)}
      onPastEdge={turn}
    >
      <table className={styles.table}>
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
    </ListPanel>
  );
}
