"use client";

import controls from "@/app/parts/controls.module.css";
import { askedNotes } from "@/lib/client/fit/askedEvents";
import { isOfSteel } from "@/lib/client/song/heardList";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import type { NearNotes } from "@/lib/fit/FitAnswer";
import { capital, markWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { Ends } from "./Ends";
import { FitHere } from "./FitHere";
import { fitActs } from "./fitActs";
import { NoteFacts } from "./NoteFacts";
import { NoteGlides } from "./NoteGlides";
import { NoteHearing } from "./NoteHearing";
import { noteActs } from "./noteActs";
import { PitchSteps } from "./PitchSteps";
import { SettleActs } from "./SettleActs";
import { whoseWords } from "./whoseWords";

/** The selected heard note: what it is, how it moves, whose it is, and what can be done with it. */
export function NoteDetails({ note }: { note: ShownNote }) {
  const desk = useDesk();
  const { nameOf, mayWrite } = desk;
  const acts = noteActs(desk);
  const isSteel = isOfSteel(note);
  return (
    <>
      <h2>Heard note</h2>
      <NoteFacts note={note} together={acts.together} />
      <p className={styles.marks}>{whoseWords(note, nameOf)}</p>
      <p className={styles.marks}>{capital(markWords(note, nameOf))}</p>
      <NoteHearing together={acts.together} note={note} />
      <FitHere<NearNotes>
        asked={acts.together.length > 0 ? askedNotes(acts.together) : null}
        heard={(near) => fitActs(desk).hear(near, note)}
        take={null}
      />
      {mayWrite ? <Ends step="step" moveEdge={acts.moveEdge} /> : null}
      <SettleActs record={note} acts={acts}>
        {mayWrite ? (
          <>
            {isSteel ? (
              <button type="button" className={controls.button} onClick={acts.toBench}>
                Write {acts.together.length > 1 ? "them" : "it"} into the part
              </button>
            ) : null}
            <button type="button" className={controls.button} onClick={acts.turnOver}>
              {isSteel ? "Not the steel's" : "This is the steel's"}
            </button>
            <PitchSteps shift={acts.shift} />
          </>
        ) : null}
      </SettleActs>
      {mayWrite ? <NoteGlides note={note} /> : null}
    </>
  );
}
