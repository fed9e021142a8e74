"use client";

import controls from "@/app/parts/controls.module.css";
import { setFields } from "@/lib/client/copedents/draftEdits";
import { useCopedentDesk } from "./CopedentContext";
import { Fault } from "./Fault";
import styles from "./inHand.module.css";
import { useFieldOf } from "./useFieldOf";

/** What is said of the instrument as a whole: what stops the strings, how many frets, the usual grips. */
export function InstrumentFields() {
  const { draft, edit, mayEdit, copedent } = useCopedentDesk();
  const fretsField = useFieldOf("frets");
  const gripsField = useFieldOf("grips");
  if (!mayEdit)
    return (
      <p className={controls.note}>
        {draft.stoppedBy === "bar" ? "Played with a bar" : "Fretted by fingers"}, {copedent.fretCount} frets
        {draft.grips ? `; usual grips ${draft.grips}` : ""}.
      </p>
    );
  return (
    <section aria-labelledby="instrument-title">
      <h2 id="instrument-title">The instrument</h2>
      <div className={styles.fields}>
        <label className={controls.field}>
          Strings are stopped by
          <select
            className={controls.input}
            value={draft.stoppedBy}
            disabled={fretsField.readOnly}
            onChange={(event) =>
              edit(setFields({ stoppedBy: event.target.value === "fingers" ? "fingers" : "bar" }))
            }
          >
            <option value="bar">a bar</option>
            <option value="fingers">fingers</option>
          </select>
        </label>
        <label className={controls.field}>
          Frets
          <input
            {...fretsField}
            className={`${controls.input} ${styles.short}`}
            inputMode="numeric"
            value={draft.frets}
            autoComplete="off"
            onChange={(event) => edit(setFields({ frets: event.target.value }), "frets")}
          />
          <Fault of="frets" />
        </label>
        <label className={`${controls.field} ${styles.long}`}>
          Usual grips, if you have any: strings, then a comma
          <input
            {...gripsField}
            className={controls.input}
            value={draft.grips}
            placeholder="3 4 5, 4 5 6"
            autoComplete="off"
            onChange={(event) => edit(setFields({ grips: event.target.value }), "grips")}
          />
          <Fault of="grips" />
        </label>
      </div>
    </section>
  );
}
