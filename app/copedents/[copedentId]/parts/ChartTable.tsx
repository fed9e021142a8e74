"use client";

import type { KeyboardEvent } from "react";
import controls from "@/app/parts/controls.module.css";
import type { DraftChange, DraftString } from "@/lib/client/copedents/ChartDraft";
import { fieldAt } from "@/lib/client/copedents/ChartField";
import { addChange, addString, setMove, setString, toggleSplit } from "@/lib/client/copedents/draftEdits";
import { SLOT_WORDS, slotShort } from "@/lib/client/copedents/slotWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { useCopedentDesk } from "./CopedentContext";
import styles from "./chart.module.css";
import { Fault } from "./Fault";
import { movedNote } from "./movedNote";
import { useFieldOf } from "./useFieldOf";

/**
 * The chart as players draw it: a row a string, a column a pedal or lever (a further one for each stage behind a half
 * stop), `+` and `−` a half step, `++` and `−−` a whole one, and under it the note that comes out.
 */
export function ChartTable() {
  const { draft, edit, mayEdit, inHand, takeInHand, copedent } = useCopedentDesk();
  const isReady = useIsReady();
  const hasStages = draft.changes.some(({ stages }) => stages.length > 1);
  const hasChanges = draft.changes.length > 0;
  const isHeld = (kind: "string" | "change", key: string) => inHand?.kind === kind && inHand.key === key;
  const take = (kind: "string" | "change", key: string) =>
    takeInHand(isHeld(kind, key) ? null : { kind, key });

  return (
    <section aria-labelledby="chart-title">
      <div className={styles.head}>
        <h2 id="chart-title">The chart</h2>
        {mayEdit ? (
          <p className={controls.note}>
            + a half step up, ++ a whole step, − down. Click a number or a letter to change what it names.
          </p>
        ) : null}
      </div>
      <div className={styles.scroll}>
        <table className={styles.table} onKeyDown={walk}>
          <thead>
            <tr>
              <th className={styles.corner} scope="col" rowSpan={hasStages ? 2 : 1}>
                <span className="unseen">String</span>
              </th>
              <th className={styles.openHead} scope="col" rowSpan={hasStages ? 2 : 1}>
                open
              </th>
              {draft.changes.map((change) => (
                <th
                  key={change.key}
                  scope="colgroup"
                  colSpan={change.stages.length}
                  rowSpan={hasStages && change.stages.length === 1 ? 2 : 1}
                  className={isHeld("change", change.key) ? styles.held : undefined}
                >
                  <ChangeHead
                    change={change}
                    isHeld={isHeld("change", change.key)}
                    onTake={() => take("change", change.key)}
                  />
                </th>
              ))}
              {hasChanges ? (
                <th
                  className={styles.splitHead}
                  scope="col"
                  rowSpan={hasStages ? 2 : 1}
                  title="A raise and a lower together give their sum on this string"
                >
                  split
                </th>
              ) : null}
            </tr>
            {hasStages ? (
              <tr>
                {draft.changes.flatMap((change) =>
                  change.stages.length === 1
                    ? []
                    : change.stages.map((_, stage) => (
                        <th key={`${change.key} ${stage}`} className={styles.stageHead} scope="col">
                          {(change.id || "?").repeat(stage + 1)}
                        </th>
                      )),
                )}
              </tr>
            ) : null}
          </thead>
          <tbody>
            {draft.strings.map((string, index) => (
              <tr key={string.key} className={isHeld("string", string.key) ? styles.held : undefined}>
                <th className={styles.corner} scope="row">
                  <button
                    type="button"
                    className={styles.number}
                    aria-label={`String ${index + 1}`}
                    aria-expanded={isHeld("string", string.key)}
                    disabled={!isReady}
                    onClick={() => take("string", string.key)}
                  >
                    {index + 1}
                  </button>
                </th>
                <td className={styles.open}>
                  <OpenNote string={string} number={index + 1} />
                </td>
                {draft.changes.flatMap((change) =>
                  change.stages.map((_, stage) => (
                    <td
                      key={`${change.key} ${stage}`}
                      className={isHeld("change", change.key) ? styles.held : undefined}
                    >
                      <MoveCell change={change} stage={stage} string={string} number={index + 1} />
                    </td>
                  )),
                )}
                {hasChanges ? (
                  <td className={styles.split}>
                    <label className={styles.splitHit}>
                      <input
                        type="checkbox"
                        aria-label={`String ${index + 1}: a raise and a lower together give their sum`}
                        checked={draft.splits.includes(string.key)}
                        disabled={!mayEdit || !isReady}
                        onChange={() => edit(toggleSplit(string.key))}
                      />
                    </label>
                  </td>
                ) : null}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <ul className={styles.faults}>
        {draft.strings.map(({ key }, index) => (
          <FaultLine key={key} of={fieldAt.pitch(key)} where={`String ${index + 1}`} />
        ))}
        {draft.changes.flatMap((change) =>
          change.stages.flatMap((_, stage) =>
            draft.strings.map(({ key }, index) => (
              <FaultLine
                key={`${change.key} ${stage} ${key}`}
                of={fieldAt.move(change.key, stage, key)}
                where={`String ${index + 1} under ${change.id.repeat(stage + 1)}`}
              />
            )),
          ),
        )}
      </ul>
      {mayEdit ? (
        <div className={styles.adds}>
          <button
            type="button"
            className={controls.button}
            disabled={!isReady}
            onClick={() => edit(addString(draft.strings.at(-1)?.pitch ?? "E4"))}
          >
            Add a string
          </button>
          <button
            type="button"
            className={controls.button}
            disabled={!isReady}
            onClick={() => {
              edit(addChange);
              const [added] = addChange(draft).changes.slice(-1);
              if (added) takeInHand({ kind: "change", key: added.key });
            }}
          >
            Add a pedal or lever
          </button>
          {copedent.changes.length === 0 ? (
            <span className={controls.note}>This instrument has none so far.</span>
          ) : null}
        </div>
      ) : null}
    </section>
  );
}

function ChangeHead({
  change,
  isHeld,
  onTake,
}: {
  change: DraftChange;
  isHeld: boolean;
  onTake: () => void;
}) {
  const isReady = useIsReady();
  return (
    <button
      type="button"
      className={styles.change}
      aria-expanded={isHeld}
      title={`${change.label ? `${change.label}, ` : ""}${SLOT_WORDS[change.slot]}`}
      disabled={!isReady}
      onClick={onTake}
    >
      <span className={styles.slot}>{slotShort(change.slot)}</span>
      <span className={styles.letter}>{change.id || "?"}</span>
      <span className="unseen">, {change.label || SLOT_WORDS[change.slot]}</span>
    </button>
  );
}

function OpenNote({ string, number }: { string: DraftString; number: number }) {
  const { edit } = useCopedentDesk();
  const field = fieldAt.pitch(string.key);
  return (
    <input
      {...useFieldOf(field)}
      className={styles.pitch}
      aria-label={`Open note of string ${number}`}
      value={string.pitch}
      spellCheck={false}
      autoComplete="off"
      onChange={(event) => edit(setString(string.key, { pitch: event.target.value }), field)}
    />
  );
}

function MoveCell({
  change,
  stage,
  string,
  number,
}: {
  change: DraftChange;
  stage: number;
  string: DraftString;
  number: number;
}) {
  const { edit, copedent } = useCopedentDesk();
  const field = fieldAt.move(change.key, stage, string.key);
  const text = change.stages[stage]?.[string.key] ?? "";
  const note = movedNote(copedent, string.pitch, text);
  return (
    <div className={styles.cell} data-moves={text.trim() === "" ? undefined : ""}>
      <input
        {...useFieldOf(field)}
        className={styles.move}
        aria-label={`${change.id.repeat(stage + 1)} on string ${number}`}
        title={note ? `gives ${note}` : undefined}
        value={text}
        spellCheck={false}
        autoComplete="off"
        onChange={(event) => edit(setMove(change.key, stage, string.key, event.target.value), field)}
      />
      <span className={styles.gives} aria-hidden="true">
        {note}
      </span>
    </div>
  );
}

function FaultLine({ of, where }: { of: Parameters<typeof Fault>[0]["of"]; where: string }) {
  if (!useCopedentDesk().faults.has(of)) return null;
  return (
    <li>
      <strong>{where}: </strong>
      <Fault of={of} />
    </li>
  );
}

/** Arrows go from cell to cell; sideways only from the end of what is typed. */
function walk(event: KeyboardEvent<HTMLTableElement>): void {
  const cell = event.target;
  if (!(cell instanceof HTMLInputElement) || cell.type === "checkbox") return;
  const step = STEPS[event.key];
  if (!step || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const [rows, columns] = step;
  const isInside =
    (columns < 0 && (cell.selectionEnd ?? 0) > 0) ||
    (columns > 0 && (cell.selectionStart ?? 0) < cell.value.length);
  if (isInside) return;
  const line = cell.closest("tr");
  const inputsOf = (row: Element | null | undefined) => [
    ...(row?.querySelectorAll<HTMLInputElement>("input:not([type=checkbox])") ?? []),
  ];
  const at = inputsOf(line).indexOf(cell);
  const row = rows === 0 ? line : rows > 0 ? line?.nextElementSibling : line?.previousElementSibling;
  const next = inputsOf(row)[at + columns];
  if (!next) return;
  event.preventDefault();
  next.focus();
  next.select();
}

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  Enter: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};
