"use client";

import { type FormEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { wordsOf } from "@/lib/client/requests/request";
import { studyName, studyPlace } from "@/lib/client/song/studyWords";
import { useDesk } from "./DeskContext";
import { selectedSpan } from "./selection";
import styles from "./studies.module.css";
import { studyActs } from "./studyActs";

/** All passages of the song, and the three ways to make one; where there are none, what one is good for. */
export function StudyShelf() {
  const desk = useDesk();
  const { opened, atHand, grid, mayWrite } = desk;
  const { studies } = opened.song;
  if (!mayWrite && studies.length === 0) return null;
  const acts = studyActs(desk);
  return (
    <div className={styles.shelf}>
      <h3>Passages</h3>
      {studies.length === 0 ? (
        <p>
          A passage is a few bars that you work on. It keeps its loop, its speed and what was done. Select
          some bars and press <kbd className={controls.key}>Shift P</kbd>, or:
        </p>
      ) : (
        <ol className={styles.list}>
          {studies.map((study) => (
            <li key={study.id}>
              <button
                type="button"
                aria-current={study.id === atHand.study?.id ? "true" : undefined}
                onClick={() => acts.choose(study)}
              >
                <span className={styles.number}>{study.number}</span>
                <span className={styles.listName}>{studyName(study, grid)}</span>
                <small>{studyPlace(study, grid)}</small>
              </button>
            </li>
          ))}
        </ol>
      )}
      {mayWrite ? <WaysToMake /> : null}
    </div>
  );
}

function WaysToMake() {
  const desk = useDesk();
  const { opened, selection, grid } = desk;
  const acts = studyActs(desk);
  const span = selectedSpan(opened.song, selection, grid);
  const sections = acts.untaken.length;
  return (
    <div className={styles.ways}>
      <button
        type="button"
        className={controls.button}
        disabled={span === null || selection?.kind === "study"}
        onClick={acts.make}
      >
        Make one of the selection
      </button>
      {sections > 0 ? (
        <button type="button" className={controls.button} onClick={acts.takeSections}>
          {sections === 1 ? "Take the section as one" : `Take the ${sections} sections`}
        </button>
      ) : null}
      {grid ? <BarsForm label="Or by bars" act="Make it" write={acts.makeOfBars} /> : null}
    </div>
  );
}

/** A field for bars, as in 9-12. */
export function BarsForm({
  label,
  act,
  write,
}: {
  label: string;
  act: string;
  /** @returns whether they were taken @throws where they cannot be read, in words */
  write: (text: string) => boolean;
}) {
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | null>(null);

  function onSubmit(event: FormEvent) {
    event.preventDefault();
    try {
      if (write(text)) setText("");
    } catch (thrown) {
      setFault(wordsOf(thrown));
    }
  }

  return (
    <form className={styles.bars} onSubmit={onSubmit}>
      <label className={controls.field}>
        {label}
        <input
          className={controls.input}
          value={text}
          placeholder="9-12"
          inputMode="text"
          maxLength={20}
          autoComplete="off"
          aria-invalid={fault !== null}
          onChange={(typed) => {
            setFault(null);
            setText(typed.target.value);
          }}
        />
      </label>
      <button type="submit" className={controls.button} disabled={text.trim() === ""}>
        {act}
      </button>
      <FaultWords words={fault} />
    </form>
  );
}
