"use client";

import { useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { barBeatText } from "@/lib/client/axis/barBeat";
import { centsText, clockText, printed, sureText } from "@/lib/client/format/format";
import { isOfRecord, type ListedNote } from "@/lib/client/song/heardList";
import { movesWords } from "@/lib/client/song/noteWords";
import { midiToName } from "@/lib/theory/spelling";
import { markCell } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./notesTable.module.css";
import { keyAt } from "./selection";
import { whoseCell } from "./whoseWords";

/** One heard note as a row of the table; its name selects it. */
export function NoteRow({
  note,
  isChosen,
  onChoose,
}: {
  note: ListedNote;
  isChosen: boolean;
  onChoose: () => void;
}) {
  const { opened, grid, nameOf } = useDesk();
  const row = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    if (isChosen) row.current?.scrollIntoView({ block: "nearest" });
  }, [isChosen]);
  const place = (sec: number) => (
    <>
      {grid ? <span className={styles.bar}>{barBeatText(grid, sec)}</span> : null} {clockText(sec, true)}
    </>
  );
  return (
    <tr ref={row} aria-current={isChosen}>
      <td>{place(note.startSec)}</td>
      <td>{place(note.endSec)}</td>
      <th scope="row">
        <button type="button" className={controls.link} onClick={onChoose}>
          {printed(midiToName(note.midi, keyAt(opened.song, note.startSec)))}
        </button>
      </th>
      <td>{centsText((note.midi - Math.round(note.midi)) * 100)}</td>
      <td className={styles.moves}>{movesWords(note) || "stays"}</td>
      <td>{whoseCell(note, nameOf)}</td>
      <td>{isOfRecord(note) ? markCell(note, nameOf) : `heard, ${sureText(note.confidence)}`}</td>
    </tr>
  );
}
