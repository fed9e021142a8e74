"use client";

import { type FormEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { sectionName, sectionRepeats } from "@/lib/client/song/sectionWords";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { LONGEST_NAME } from "@/lib/document/records/guards";
import { BassHere } from "./BassHere";
import { capital, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HeardHere } from "./HeardHere";
import { MoveField } from "./MoveField";
import { RepeatForm } from "./RepeatForm";
import { SettleActs } from "./SettleActs";
import { StretchNotes } from "./StretchNotes";
import { sectionActs } from "./sectionActs";
import { studyActs } from "./studyActs";

/** The selected section: what it is called, what it repeats, and what can be done with it. */
export function SectionDetails({ section }: { section: ShownSection }) {
  const desk = useDesk();
  const { opened, grid, axis, nameOf, mayWrite } = desk;
  const acts = sectionActs(desk);
  const repeats = sectionRepeats(opened.song.sections, section, grid);
  const isAll = opened.song.sections.length === 1 && section.mark === "pencil";
  return (
    <>
      <h2>Section</h2>
      <p className={styles.big}>
        <span>{sectionName(section)}</span>
      </p>
      <p>{capital(stretchWords(grid, section.startSec, section.endSec))}</p>
      {repeats || isAll ? <p>{repeats ?? "The machine heard nothing come again."}</p> : null}
      <p className={styles.marks}>{capital(markWords(section, nameOf))}</p>
      <BassHere span={section} />
      <HeardHere span={section} />
      <StretchNotes />
      {mayWrite ? (
        <>
          <NameForm key={`${section.id}.${section.label}`} section={section} />
          <MoveField section={section} />
          <RepeatForm key={`${section.id}.${section.stretch}.${section.label}`} section={section} />
        </>
      ) : null}
      <SettleActs record={section} acts={acts}>
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, section.startSec, section.endSec))}
        >
          Show it whole
        </button>
        {mayWrite ? (
          <button type="button" className={controls.button} onClick={studyActs(desk).make}>
            Make it a passage
          </button>
        ) : null}
      </SettleActs>
    </>
  );
}

function NameForm({ section }: { section: ShownSection }) {
  const desk = useDesk();
  const acts = sectionActs(desk);
  const [name, setName] = useState(section.label);
  const [onlyThis, setOnlyThis] = useState(false);
  const others = acts.alike.length - 1;

  function onSubmit(event: FormEvent) {
    event.preventDefault();
    acts.rename(name, onlyThis);
  }

  return (
    <form className={styles.nameForm} onSubmit={onSubmit}>
      <label className={controls.field}>
        Name
        <input
          className={controls.input}
          value={name}
          maxLength={LONGEST_NAME}
          autoComplete="off"
          onChange={(typed) => setName(typed.target.value)}
        />
      </label>
      <button type="submit" className={controls.button} disabled={name.trim() === section.label}>
        Name it
      </button>
      {others > 0 ? (
        <label className={styles.onlyThis}>
          <input
            type="checkbox"
            checked={onlyThis}
            onChange={(ticked) => setOnlyThis(ticked.target.checked)}
          />
          Only this one, not the {others === 1 ? "other" : `${others} others`} called {section.label}
        </label>
      ) : null}
    </form>
  );
}
