"use client";

import controls from "@/app/parts/controls.module.css";
import type { BandNote } from "@/lib/client/song/heardList";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { LoopIt } from "./LoopIt";
import { NoteFacts } from "./NoteFacts";
import { NoteHearing } from "./NoteHearing";
import { noteActs } from "./noteActs";
import { whoseWords } from "./whoseWords";

/** The selected note of the band, which stands in no record of the song until it is given to the steel. */
export function BandNoteDetails({ note }: { note: BandNote }) {
  const desk = useDesk();
  const acts = noteActs(desk);
  return (
    <>
      <h2>Note of the band</h2>
      <NoteFacts note={note} together={acts.together} />
      <p className={styles.marks}>{whoseWords(note, desk.nameOf)}</p>
      <p className={styles.marks}>Heard by the machine, kept beside the song</p>
      <NoteHearing together={acts.together} note={note} />
      <div className={styles.acts}>
        {desk.mayWrite ? (
          <button type="button" className={controls.act} onClick={acts.turnOver}>
            This is the steel's
          </button>
        ) : null}
        <LoopIt />
      </div>
    </>
  );
}
