"use client";

import { type FormEvent, useMemo, useState } from "react";
import { CopedentOptions } from "@/app/copedents/parts/CopedentOptions";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { shortName, sizeWords } from "@/lib/client/copedents/copedentWords";
import { choiceToValue, valueToChoice } from "@/lib/client/song/guitarChoice";
import { LONGEST_NAME } from "@/lib/document/records/guards";
import { useDesk } from "./DeskContext";
import styles from "./parts.module.css";
import { partsActs } from "./partsActs";
import { useCopedentShelf } from "./useCopedentShelf";

/** Adds a part on any instrument; it is in hand then. */
export function AddPart({ onAdded }: { onAdded: () => void }) {
  const desk = useDesk();
  const { page, parts } = desk;
  const { shelf, shared, fault } = useCopedentShelf(page.bookId);
  const [name, setName] = useState("");
  const [value, setValue] = useState(() => choiceToValue(parts.atHand.head.from));
  const listed = useMemo(() => valueToChoice(value, shelf), [value, shelf]);
  // The part in hand has its copy of a chart that may be on no shelf of this person's.
  const { from, copedent } = parts.atHand.head;
  const choice = listed ?? (value === choiceToValue(from) ? { from, copedent } : null);

  function add(event: FormEvent) {
    event.preventDefault();
    if (choice && partsActs(desk).add(name, choice)) onAdded();
  }

  return (
    <form className={styles.add} onSubmit={add}>
      <h3>Add a part</h3>
      <div className={styles.fields}>
        <label className={controls.field}>
          Name
          <input
            className={controls.input}
            value={name}
            placeholder="Fiddle, second steel"
            maxLength={LONGEST_NAME}
            autoComplete="off"
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        <label className={controls.field}>
          Played on
          <select className={controls.input} value={value} onChange={(event) => setValue(event.target.value)}>
            {choice && !listed ? <option value={value}>{choice.copedent.name}</option> : null}
            <CopedentOptions own={shelf?.own} shared={shared} />
          </select>
        </label>
        <button type="submit" className={controls.act} disabled={!choice}>
          Add it
        </button>
      </div>
      {choice ? (
        <p className={controls.note}>
          {shortName(choice.copedent)}: {sizeWords(choice.copedent)}.
          {choice.from.kind === "own"
            ? " Everyone in this book sees its chart: the part keeps a copy."
            : " A fiddle goes on the chart of a mandolin: both are tuned in fifths."}
        </p>
      ) : null}
      <FaultWords words={fault} />
    </form>
  );
}
