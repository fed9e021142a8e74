"use client";

import controls from "@/app/parts/controls.module.css";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import { changeActs } from "./changeActs";
import { changeText, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { LoopIt } from "./LoopIt";
import { keyAt } from "./selection";

/** The selected change. */
export function ChangeDetails({ change }: { change: ShownChange }) {
  const desk = useDesk();
  const { opened, grid, nameOf, mayWrite } = desk;
  const acts = changeActs(desk);
  const { degree, rest, letters } = changeText(change.label, keyAt(opened.song, change.startSec));
  return (
    <>
      <h2>Change</h2>
      <p className={styles.big}>
        <span>
          {degree}
          <sup className={styles.sup}>{rest}</sup>
        </span>
        <small>{letters}</small>
      </p>
      <p>{stretchWords(grid, change.startSec, change.endSec)}</p>
      <p className={styles.marks}>{capital(markWords(change, nameOf))}</p>
      <div className={styles.acts}>
        {mayWrite ? (
          <>
            <button
              type="button"
              className={controls.act}
              onClick={acts.ink}
              disabled={change.mark === "ink"}
            >
              Ink it
            </button>
            <button type="button" className={controls.button} onClick={() => acts.type("")}>
              Change
            </button>
          </>
        ) : null}
        <LoopIt />
        {mayWrite ? (
          <>
            <button type="button" className={controls.button} onClick={acts.split}>
              Split here
            </button>
            <button type="button" className={controls.button} onClick={acts.merge} disabled={!acts.next}>
              Merge with next
            </button>
            <button type="button" className={controls.warn} onClick={acts.rubOut}>
              Rub out
            </button>
          </>
        ) : null}
      </div>
    </>
  );
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
