"use client";

import { type FormEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { LONGEST_BAR } from "@/lib/notation/beats/barPlaces";
import type { MeterReach } from "@/lib/notation/beats/meter";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";

const COUNTS = Array.from({ length: LONGEST_BAR }, (_, index) => index + 1);
const REACHES: readonly [MeterReach, string][] = [
  ["onward", "from here on"],
  ["bar", "this bar alone"],
  ["song", "the whole song"],
];

/** How many beats a bar has, and how far that reaches. */
export function MeterForm({ now }: { now: number }) {
  const acts = beatActs(useDesk());
  const [count, setCount] = useState(now);
  const [reach, setReach] = useState<MeterReach>("onward");

  function onSubmit(event: FormEvent) {
    event.preventDefault();
    acts.meter(count, reach);
  }

  return (
    <form className={styles.meter} onSubmit={onSubmit}>
      <label className={controls.field}>
        Beats to the bar
        <select
          className={controls.input}
          value={count}
          onChange={(event) => setCount(Number(event.target.value))}
        >
          {COUNTS.map((each) => (
            <option key={each} value={each}>
              {each}
            </option>
          ))}
        </select>
      </label>
      <label className={controls.field}>
        Where
        <select
          className={controls.input}
          value={reach}
          onChange={(event) => setReach(event.target.value as MeterReach)}
        >
          {REACHES.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className={controls.button}>
        Set
      </button>
    </form>
  );
}
