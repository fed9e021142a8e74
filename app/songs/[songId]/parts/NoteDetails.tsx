"use client";

import controls from "@/app/parts/controls.module.css";
import { printed, sureText } from "@/lib/client/format/format";
import { movesWords, offWords } from "@/lib/client/song/noteWords";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import { midiToDegree } from "@/lib/theory/scaleDegree";
import { midiToName } from "@/lib/theory/spelling";
import { capital, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { NoteGlides } from "./NoteGlides";
import { hearAlone, noteActs } from "./noteActs";
import { SettleActs } from "./SettleActs";
import { keyAt } from "./selection";

/** The selected heard note: what it is, how it moves, whose it is, and what can be done with it. */
export function NoteDetails({ note }: { note: ShownNote }) {
  const desk = useDesk();
  const { opened, grid, nameOf, mayWrite } = desk;
  const acts = noteActs(desk);
  const { together } = acts;
  const key = keyAt(opened.song, note.startSec);
  const nameOfNote = (midi: number) => printed(midiToName(midi, key));
  const moves = movesWords(note);
  const off = offWords(note.midi);
  return (
    <>
      <h2>Heard note</h2>
      <p className={styles.big} role="status">
        <span>{printed(midiToDegree(note.midi, key))}</span>
        <small>{nameOfNote(note.midi)}</small>
        {moves ? <span className="unseen">, {moves}</span> : null}
      </p>
      <p>{capital(stretchWords(grid, note.startSec, note.endSec))}</p>
      <p>{moves ? capital(moves) : "Stays on its pitch"}.</p>
      {off ? <p>{off}</p> : null}
      {together.length > 1 ? (
        <p>Picked together: {together.map(({ midi }) => nameOfNote(midi)).join(" over ")}</p>
      ) : null}
      <p className={styles.marks}>{whoseWords(note)}</p>
      <p className={styles.marks}>{capital(markWords(note, nameOf))}</p>
      <SettleActs record={note} acts={acts}>
        <button type="button" className={controls.button} onClick={acts.hearAlone}>
          Hear it alone
        </button>
        {together.length > 1 ? (
          <button type="button" className={controls.button} onClick={() => hearAlone(desk, together)}>
            Hear them together
          </button>
        ) : null}
        {mayWrite ? (
          <>
            <button type="button" className={controls.button} onClick={acts.toBench}>
              Write {together.length > 1 ? "them" : "it"} into the part
            </button>
            <button type="button" className={controls.button} onClick={() => acts.shift(1)}>
              Half step up
            </button>
            <button type="button" className={controls.button} onClick={() => acts.shift(-1)}>
              Half step down
            </button>
            <button type="button" className={controls.button} onClick={() => acts.moveEdge("end", 1)}>
              Longer
            </button>
            <button type="button" className={controls.button} onClick={() => acts.moveEdge("end", -1)}>
              Shorter
            </button>
          </>
        ) : null}
      </SettleActs>
      {mayWrite ? <NoteGlides note={note} /> : null}
    </>
  );
}

/** Whose note it is: the lane holds the steel's alone. */
function whoseWords({ steel }: ShownNote): string {
  return steel === null ? "The steel's" : `The steel's, ${sureText(steel)} sure`;
}
