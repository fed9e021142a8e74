"use client";

import controls from "@/app/parts/controls.module.css";
import { fieldAt } from "@/lib/client/copedents/ChartField";
import { moveString, removeString, setString } from "@/lib/client/copedents/draftEdits";
import { useCopedentDesk } from "./CopedentContext";
import { Fault } from "./Fault";
import styles from "./inHand.module.css";
import { useFieldOf } from "./useFieldOf";

/** The string in hand: its open note, where it begins, its place among the others. */
export function StringInHand({ stringKey }: { stringKey: string }) {
  const { draft, edit, mayEdit, takeInHand, copedent } = useCopedentDesk();
  const pitchField = useFieldOf(fieldAt.pitch(stringKey));
  const beginsField = useFieldOf(fieldAt.begins(stringKey));
  const index = draft.strings.findIndex(({ key }) => key === stringKey);
  const string = draft.strings[index];
  if (!string) return null;
  const pulled = copedent.changes.flatMap(({ id, stages }) =>
    stages.some((pulls) => (pulls[index + 1] ?? 0) !== 0) ? [id] : [],
  );

  return (
    <section className={styles.panel} aria-labelledby="string-in-hand">
      <div className={styles.head}>
        <h3 id="string-in-hand">
          String {index + 1}
          {index === 0 ? ", furthest from you" : index === draft.strings.length - 1 ? ", nearest to you" : ""}
        </h3>
        <button type="button" className={controls.plain} onClick={() => takeInHand(null)}>
          Close
        </button>
      </div>
      <p className={controls.note}>
        {pulled.length > 0 ? `Moved by ${pulled.join(", ")}.` : "Nothing moves it."}
      </p>
      {mayEdit ? (
        <>
          <div className={styles.fields}>
            <label className={controls.field}>
              Open note with its octave, or MIDI
              <input
                {...pitchField}
                className={controls.input}
                value={string.pitch}
                spellCheck={false}
                autoComplete="off"
                onChange={(event) =>
                  edit(setString(stringKey, { pitch: event.target.value }), fieldAt.pitch(stringKey))
                }
              />
            </label>
            <label className={controls.field}>
              Begins at fret, if it is shorter
              <input
                {...beginsField}
                className={controls.input}
                inputMode="numeric"
                value={string.beginsAtFret}
                placeholder="0"
                autoComplete="off"
                onChange={(event) =>
                  edit(setString(stringKey, { beginsAtFret: event.target.value }), fieldAt.begins(stringKey))
                }
              />
              <Fault of={fieldAt.begins(stringKey)} />
            </label>
          </div>
          <div className={styles.acts}>
            <button
              type="button"
              className={controls.button}
              disabled={index === 0}
              onClick={() => edit(moveString(stringKey, -1))}
            >
              Further away
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={index === draft.strings.length - 1}
              onClick={() => edit(moveString(stringKey, 1))}
            >
              Nearer
            </button>
            <button
              type="button"
              className={controls.warn}
              disabled={draft.strings.length === 1}
              onClick={() => {
                edit(removeString(stringKey));
                takeInHand(null);
              }}
            >
              Remove string {index + 1}
            </button>
          </div>
        </>
      ) : null}
    </section>
  );
}
