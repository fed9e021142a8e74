"use client";

import controls from "@/app/parts/controls.module.css";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HearActs } from "./HearActs";
import { passageActs } from "./passageActs";

/** What can be done with the steel's notes of the selected stretch as a whole; nothing where it has none. */
export function StretchNotes() {
  const desk = useDesk();
  const acts = passageActs(desk);
  if (acts.notes.length === 0) return null;
  return (
    <>
      <HearActs label="Hear its notes" what="its notes" notes={acts.notes} />
      {desk.mayWrite ? (
        <div className={styles.acts}>
          <button type="button" className={controls.button} onClick={acts.write}>
            Write its notes into the part
          </button>
        </div>
      ) : null}
    </>
  );
}
