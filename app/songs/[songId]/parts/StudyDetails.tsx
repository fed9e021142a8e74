"use client";

import { type FormEvent, useEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { studyName } from "@/lib/client/song/studyWords";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { LONGEST_NAME } from "@/lib/document/records/guards";
import { BassHere } from "./BassHere";
import { capital, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { Ends } from "./Ends";
import { HeardHere } from "./HeardHere";
import { PlayIt } from "./PlayIt";
import { StretchNotes } from "./StretchNotes";
import { BarsForm } from "./StudyShelf";
import { studyActs } from "./studyActs";

/** The selected passage: its name, its ends, and what can be done with it. */
export function StudyDetails({ study }: { study: ShownStudy }) {
  const desk = useDesk();
  const { grid, axis, nameOf, mayWrite } = desk;
  const acts = studyActs(desk);
  return (
    <>
      <h2>Passage {study.number}</h2>
      <p className={styles.big}>
        <span>{studyName(study, grid)}</span>
      </p>
      <p>{capital(stretchWords(grid, study.startSec, study.endSec))}</p>
      <p className={styles.marks}>{capital(markWords(study, nameOf))}</p>
      <BassHere span={study} />
      <HeardHere span={study} />
      <StretchNotes />
      {mayWrite ? (
        <>
          <NameForm key={`${study.id}.${study.name}`} study={study} />
          <Ends moveEdge={acts.moveEdge} />
          {grid ? <BarsForm label="Or move it to bars" act="Move it" write={acts.moveToBars} /> : null}
        </>
      ) : null}
      <div className={styles.acts}>
        <PlayIt />
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, study.startSec, study.endSec))}
        >
          Show it whole
        </button>
        {mayWrite ? (
          <button type="button" className={controls.warn} onClick={acts.rubOut}>
            Rub out
          </button>
        ) : null}
      </div>
    </>
  );
}

function NameForm({ study }: { study: ShownStudy }) {
  const desk = useDesk();
  const { typing, setTyping } = desk;
  const [name, setName] = useState(study.name);
  const field = useRef<HTMLInputElement>(null);
  // F2 leads into the field; it may have come from anywhere on the page.
  useEffect(() => {
    if (typing === null) return;
    // A frame later, when the sheet that it stands in on a narrow screen is up.
    const frame = requestAnimationFrame(() => {
      field.current?.focus();
      field.current?.select();
      setTyping(null);
    });
    return () => cancelAnimationFrame(frame);
  }, [typing, setTyping]);

  function onSubmit(event: FormEvent) {
    event.preventDefault();
    if (studyActs(desk).rename(name)) field.current?.blur();
  }

  return (
    <form className={styles.nameForm} onSubmit={onSubmit}>
      <label className={controls.field}>
        Name of the passage
        <input
          ref={field}
          className={controls.input}
          value={name}
          maxLength={LONGEST_NAME}
          placeholder="Intro, turnaround"
          autoComplete="off"
          onChange={(typed) => setName(typed.target.value)}
          onKeyDown={(event) => event.key === "Escape" && event.currentTarget.blur()}
        />
      </label>
      <button type="submit" className={controls.button} disabled={name.trim() === study.name}>
        Name it
      </button>
    </form>
  );
}
