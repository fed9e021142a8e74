"use client";

import controls from "@/app/parts/controls.module.css";
import { pageAt } from "@/lib/client/song/notePages";
import { useDesk } from "./DeskContext";
import { ListPanel } from "./ListPanel";
import { NoteRow } from "./NoteRow";
import { noteActs } from "./noteActs";
import styles from "./notesTable.module.css";
import { PageTurns } from "./PageTurns";
import { usePages } from "./usePages";

const COLUMNS = ["Start", "End", "Note", "Off", "Moves", "Whose", "Mark"] as const;

/**
 * The heard notes as a table, page by page, for those who hear the page or would rather read: from each row its note is
 * selected, and the arrow keys go from row to row.
 */
export function NotesTable() {
  const desk = useDesk();
  const { heardList, axis, openTable, band } = desk;
  const { chosen, choose } = noteActs(desk);
  const chosenAt = chosen ? heardList.findIndex(({ id }) => id === chosen.id) : -1;
  const pages = usePages(heardList, chosenAt, {
    atFirst: () => pageAt(heardList, chosen?.startSec ?? axis.now().startSec),
  });
  const { page, first, rows, count, turnTo } = pages;

  function turn(step: -1 | 1): boolean {
    if (page + step < 0 || page + step >= count) return false;
    turnTo(page + step);
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
          <PageTurns pages={pages} />
          <button
            type="button"
            className={controls.button}
            onClick={() => turnTo(pageAt(heardList, axis.now().startSec))}
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
