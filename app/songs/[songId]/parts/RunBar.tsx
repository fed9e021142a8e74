"use client";

import { type KeyboardEvent, useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { type Desk, useDesk } from "./DeskContext";
import styles from "./run.module.css";
import { runActs, runWords } from "./runActs";

/** Under the lanes, while a run of changes is typed: the field, what it would write, and the ways to write or leave it. */
export function RunBar() {
  const { run } = useDesk();
  return run ? <OpenRun run={run} /> : null;
}

function OpenRun({ run }: { run: NonNullable<Desk["run"]> }) {
  const desk = useDesk();
  const { setRun } = desk;
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const shown = field.current;
    shown?.focus();
    // What was typed elsewhere goes on at its end.
    shown?.setSelectionRange(shown.value.length, shown.value.length);
  }, []);
  const acts = runActs(desk);
  const reading = acts.read();

  function onKeyDown(event: KeyboardEvent) {
    event.stopPropagation();
    if (event.key === "Enter") acts.write();
    else if (event.key === "Escape") acts.drop();
    else return;
    event.preventDefault();
  }

  return (
    <section className={styles.bar} aria-label="Changes in a run">
      <label className={styles.label}>
        <span>Changes</span>
        <input
          ref={field}
          className={`${controls.input} ${styles.field} ${reading.fault ? styles.fault : ""}`}
          value={run.text}
          placeholder="1 4 1/3 5 6-"
          aria-label="Changes in a run, as numbers or in letters"
          aria-invalid={reading.fault !== null}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          onChange={(event) => setRun({ ...run, text: event.target.value })}
          onKeyDown={onKeyDown}
        />
      </label>
      <div className={styles.acts}>
        <button type="button" className={controls.act} disabled={!reading.run} onClick={acts.write}>
          Write them
        </button>
        <button type="button" className={controls.button} onClick={acts.drop}>
          Drop
        </button>
      </div>
      <p className={styles.words} role="status" aria-live="polite">
        {runWords(reading)}
      </p>
    </section>
  );
}
