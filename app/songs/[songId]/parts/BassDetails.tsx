"use client";

import { printed } from "@/lib/client/format/format";
import type { ShownBassNote } from "@/lib/document/read/SongSnapshot";
import { midiToName } from "@/lib/theory/spelling";
import { bassActs } from "./bassActs";
import { capital, markWords, noteNumber, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { Ends } from "./Ends";
import { PitchSteps } from "./PitchSteps";
import { SettleActs } from "./SettleActs";
import { keyAt } from "./selection";

/** The selected note of the bass line. */
export function BassDetails({ note }: { note: ShownBassNote }) {
  const desk = useDesk();
  const { opened, grid, nameOf, mayWrite } = desk;
  const acts = bassActs(desk);
  const key = keyAt(opened.song, note.startSec);
  return (
    <>
      <h2>Bass note</h2>
      <p className={styles.big} role="status">
        <span>{noteNumber(note.midi, opened.song, note.startSec)}</span>
        <small>{printed(midiToName(note.midi, key))}</small>
      </p>
      <p>{capital(stretchWords(grid, note.startSec, note.endSec))}</p>
      <p className={styles.marks}>{capital(markWords(note, nameOf))}</p>
      {mayWrite ? <Ends step="step" moveEdge={acts.moveEdge} /> : null}
      <SettleActs record={note} acts={acts}>
        {mayWrite ? <PitchSteps shift={acts.shift} /> : null}
      </SettleActs>
    </>
  );
}
