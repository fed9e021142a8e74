"use client";

import controls from "@/app/parts/controls.module.css";
import { fieldAt } from "@/lib/client/copedents/ChartField";
import {
  addStage,
  isPedal,
  moveChange,
  removeChange,
  removeStage,
  setChange,
  toggleFootRest,
} from "@/lib/client/copedents/draftEdits";
import { SLOT_WORDS } from "@/lib/client/copedents/slotWords";
import { CHART_LIMITS } from "@/lib/instrument/chart/chartLimits";
import { isSlotCode, type SlotCode } from "@/lib/instrument/chart/slotCode";
import { pullsToWords } from "@/lib/notation/tabLegend";
import { useCopedentDesk } from "./CopedentContext";
import { Fault } from "./Fault";
import styles from "./inHand.module.css";
import { useFieldOf } from "./useFieldOf";

const SLOTS_IN_ORDER = Object.keys(SLOT_WORDS).filter(isSlotCode);

/** The pedal or lever in hand: its letter, what it is called, where it is worked, its stages. */
export function ChangeInHand({ changeKey }: { changeKey: string }) {
  const { draft, edit, mayEdit, takeInHand, copedent } = useCopedentDesk();
  const idField = useFieldOf(fieldAt.id(changeKey));
  const labelField = useFieldOf(fieldAt.label(changeKey));
  const slotField = useFieldOf(fieldAt.slot(changeKey));
  const index = draft.changes.findIndex(({ key }) => key === changeKey);
  const change = draft.changes[index];
  if (!change) return null;
  const { id, label, slot, stages } = change;
  const read = copedent.changes.find((each) => each.id === id.trim());
  const doing = read?.stages.map((pulls, at) => {
    const words = pullsToWords(pulls);
    return `${read.stages.length > 1 ? `${read.id.repeat(at + 1)}: ` : ""}${words || "nothing yet"}`;
  });

  return (
    <section className={styles.panel} aria-labelledby="change-in-hand">
      <div className={styles.head}>
        <h3 id="change-in-hand">{id ? `${id}, ${SLOT_WORDS[slot]}` : "A change without a letter"}</h3>
        <button type="button" className={controls.plain} onClick={() => takeInHand(null)}>
          Close
        </button>
      </div>
      <p className={controls.note}>
        {doing ? `Does ${doing.join("; then ")}.` : "What it does is told once its letter can be read."}
      </p>
      {mayEdit ? (
        <>
          <div className={styles.fields}>
            <label className={controls.field}>
              Letter, as in tab
              <input
                {...idField}
                className={`${controls.input} ${styles.short}`}
                value={id}
                maxLength={CHART_LIMITS.idCharacters}
                spellCheck={false}
                autoComplete="off"
                onChange={(event) =>
                  edit(setChange(changeKey, { id: event.target.value }), fieldAt.id(changeKey))
                }
              />
              <Fault of={fieldAt.id(changeKey)} />
            </label>
            <label className={controls.field}>
              What you call it
              <input
                {...labelField}
                className={controls.input}
                value={label}
                maxLength={CHART_LIMITS.labelCharacters}
                placeholder={id}
                autoComplete="off"
                onChange={(event) =>
                  edit(setChange(changeKey, { label: event.target.value }), fieldAt.label(changeKey))
                }
              />
              <Fault of={fieldAt.label(changeKey)} />
            </label>
            <label className={controls.field}>
              Worked by
              <select
                className={controls.input}
                value={slot}
                aria-invalid={slotField["aria-invalid"]}
                aria-describedby={slotField["aria-describedby"]}
                disabled={slotField.readOnly}
                onChange={(event) => edit(setChange(changeKey, { slot: event.target.value as SlotCode }))}
              >
                {SLOTS_IN_ORDER.map((code) => (
                  <option key={code} value={code}>
                    {SLOT_WORDS[code]}
                  </option>
                ))}
              </select>
              <Fault of={fieldAt.slot(changeKey)} />
            </label>
            {isPedal(change) ? (
              <label className={styles.check}>
                <input
                  type="checkbox"
                  checked={draft.footRest.includes(changeKey)}
                  disabled={slotField.readOnly}
                  onChange={() => edit(toggleFootRest(changeKey))}
                />
                the left foot rests over it
              </label>
            ) : null}
          </div>
          <div className={styles.acts}>
            <button
              type="button"
              className={controls.button}
              disabled={stages.length >= CHART_LIMITS.stages}
              onClick={() => edit(addStage(changeKey))}
            >
              {stages.length === 1 ? "Give it a half stop" : "Add a stage"}
            </button>
            {stages.length > 1 ? (
              <button type="button" className={controls.button} onClick={() => edit(removeStage(changeKey))}>
                Take the last stage away
              </button>
            ) : null}
            <button
              type="button"
              className={controls.button}
              disabled={index === 0}
              onClick={() => edit(moveChange(changeKey, -1))}
            >
              Column to the left
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={index === draft.changes.length - 1}
              onClick={() => edit(moveChange(changeKey, 1))}
            >
              To the right
            </button>
            <button
              type="button"
              className={controls.warn}
              onClick={() => {
                edit(removeChange(changeKey));
                takeInHand(null);
              }}
            >
              Remove {id || "it"}
            </button>
          </div>
        </>
      ) : null}
    </section>
  );
}
