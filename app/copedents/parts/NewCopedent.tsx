"use client";

import { type SyntheticEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { COPEDENTS, findCopedent } from "@/lib/instrument/copedentCatalog";
import { CopedentOptions } from "./CopedentOptions";
import styles from "./copedents.module.css";
import { ownName } from "./ownName";
import { useMakeCopedent } from "./useMakeCopedent";

/** The least that is an instrument. */
const EMPTY: Chart = { strings: [64], frets: 24, changes: [] };
const FROM_NOTHING = "";
const FIRST = `preset ${COPEDENTS[0]?.id}`;

/** Makes a copedent of one's own, from a preset or from nothing, and opens it. */
export function NewCopedent() {
  const isReady = useIsReady();
  const { make, isMaking, fault } = useMakeCopedent();
  const [from, setFrom] = useState(FIRST);
  const [name, setName] = useState("");

  function send(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    const preset = findCopedent(from.split(" ")[1] ?? "");
    const chart = preset ? writeChart(preset) : EMPTY;
    void make({ ...chart, source: "", name: name.trim() || ownName(preset?.name ?? "New copedent") });
  }

  return (
    <form className={styles.make} onSubmit={send}>
      <label className={controls.field}>
        Make one of your own from
        <select className={controls.input} value={from} onChange={(event) => setFrom(event.target.value)}>
          <CopedentOptions />
          <option value={FROM_NOTHING}>nothing: one string, no pedals</option>
        </select>
      </label>
      <label className={controls.field}>
        Its name
        <input
          className={controls.input}
          value={name}
          maxLength={80}
          placeholder="My E9"
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <button type="submit" className={controls.act} disabled={isMaking || !isReady}>
        Make it
      </button>
      <FaultWords words={fault} />
    </form>
  );
}
