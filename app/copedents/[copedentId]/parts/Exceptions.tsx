"use client";

import { type SyntheticEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import type { ChartDraft, DraftCombination } from "@/lib/client/copedents/ChartDraft";
import { addCombination, removeCombination } from "@/lib/client/copedents/draftEdits";
import { moveToText, textToMove } from "@/lib/client/copedents/moveText";
import { wordsOf } from "@/lib/client/requests/request";
import { pullToWords } from "@/lib/instrument/pullWords";
import { useCopedentDesk } from "./CopedentContext";
import styles from "./inHand.module.css";

/** Where the guitar is tuned otherwise than the rules of combination say: seen, added for what is held on the neck, removed. */
export function Exceptions() {
  const { draft, edit, mayEdit, engaged } = useCopedentDesk();
  const [string, setString] = useState("");
  const [move, setMove] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const { combinations } = draft;
  if (combinations.length === 0 && (!mayEdit || draft.changes.length < 2)) return null;

  function add(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    try {
      const semitones = textToMove(move);
      const chosen = string || draft.strings[0]?.key || "";
      edit(addCombination({ string: chosen, stages: stagesOf(draft, engaged), semitones }));
      setMove("");
      setFault(null);
    } catch (thrown) {
      setFault(wordsOf(thrown));
    }
  }

  return (
    <section aria-labelledby="exceptions-title">
      <h2 id="exceptions-title">Tuned otherwise</h2>
      <p className={controls.note}>
        On one string raises do not add, nor do lowers; a raise and a lower add where it is split. What your
        guitar gives otherwise stands here.
      </p>
      <ul>
        {combinations.map((each, index) => (
          <li key={combinationWords(draft, each)} className={styles.exception}>
            <span>{combinationWords(draft, each)}</span>
            {mayEdit ? (
              <button
                type="button"
                className={controls.plain}
                aria-label={`Remove: ${combinationWords(draft, each)}`}
                onClick={() => edit(removeCombination(index))}
              >
                Remove
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {mayEdit && engaged.length === 0 ? (
        <p className={controls.note}>
          Hold pedals and levers on the neck to say what a string gives with them.
        </p>
      ) : null}
      {mayEdit && engaged.length > 0 ? (
        <form className={styles.addException} onSubmit={add}>
          <label className={controls.field}>
            With {engaged.join(" + ")}, string
            <select
              className={controls.input}
              value={string}
              onChange={(event) => setString(event.target.value)}
            >
              {draft.strings.map(({ key }, index) => (
                <option key={key} value={key}>
                  {index + 1}
                </option>
              ))}
            </select>
          </label>
          <label className={controls.field}>
            goes from its open pitch by
            <input
              className={controls.input}
              value={move}
              placeholder="+ ++ − −− or 0"
              autoComplete="off"
              onChange={(event) => setMove(event.target.value)}
            />
          </label>
          <button type="submit" className={controls.button} disabled={move.trim() === ""}>
            Add it
          </button>
          <FaultWords words={fault} />
        </form>
      ) : null}
    </section>
  );
}

/** The stages held on the neck, by the keys of the draft. */
function stagesOf(draft: ChartDraft, engaged: readonly string[]): DraftCombination["stages"] {
  return draft.changes.flatMap(({ key, id, stages }) => {
    const depth = stages.findIndex((_, at) => engaged.includes(id.trim().repeat(at + 1))) + 1;
    return depth === 0 ? [] : [{ change: key, depth }];
  });
}

function combinationWords(draft: ChartDraft, { string, stages, semitones }: DraftCombination): string {
  const number = draft.strings.findIndex(({ key }) => key === string) + 1;
  const held = stages.map(({ change, depth }) =>
    (draft.changes.find(({ key }) => key === change)?.id ?? "?").repeat(depth),
  );
  const sign = semitones === 0 ? "" : ` (${moveToText(semitones)})`;
  return `String ${number} with ${held.join(" + ")}: ${pullToWords(semitones)}${sign}`;
}
