"use client";

import { printed } from "@/lib/client/format/format";
import type { TracedNote } from "@/lib/client/song/noteTrace";
import { movesWords, offWords } from "@/lib/client/song/noteWords";
import { midiToName } from "@/lib/theory/spelling";
import { capital, noteNumber, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { keyAt } from "./selection";

/** What a heard note is, when it sounds, how it moves, and what is picked with it. */
export function NoteFacts({ note, together }: { note: TracedNote; together: readonly TracedNote[] }) {
  const { opened, grid } = useDesk();
  const key = keyAt(opened.song, note.startSec);
  const number = noteNumber(note.midi, opened.song, note.startSec);
  const nameOfNote = (midi: number) => printed(midiToName(midi, key));
  const moves = movesWords(note);
  const off = offWords(note.midi);
  return (
    <>
      <p className={styles.big} role="status">
        <span>{number}</span>
        <small>{nameOfNote(note.midi)}</small>
        {moves ? <span className="unseen">, {moves}</span> : null}
      </p>
      <p>{capital(stretchWords(grid, note.startSec, note.endSec))}</p>
      <p>{moves ? capital(moves) : "Stays on its pitch"}.</p>
      {off ? <p>{off}</p> : null}
      {together.length > 1 ? (
        <p>Picked together: {together.map(({ midi }) => nameOfNote(midi)).join(" over ")}</p>
      ) : null}
    </>
  );
}
