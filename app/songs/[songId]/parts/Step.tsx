"use client";

import type { ReactNode } from "react";
import type { RecordBase } from "@/lib/document/records/records";
import styles from "./columns.module.css";

type StepState = "open" | "begun" | "done";

/** One step of the work: its name, how far it is, and what is so now. */
export function Step({ name, state, children }: { name: string; state: StepState; children: ReactNode }) {
  return (
    <li className={styles.step}>
      <span className={`${styles.dot} ${styles[state]}`} aria-hidden="true" />
      <h3>
        {name}
        <span className="unseen">, {state}</span>
      </h3>
      <div className={styles.stepBody}>{children}</div>
    </li>
  );
}

/** How far a step is whose many records are inked one by one. */
export function stateOfInk(inkedCount: number, count: number): StepState {
  if (inkedCount === 0) return "open";
  return inkedCount === count ? "done" : "begun";
}

/** How far a step is whose records are these, null for one that is missing. */
export function stateOf(records: (RecordBase | null)[]): StepState {
  const there = records.filter((record) => record !== null);
  if (there.length === 0) return "open";
  if (there.length === records.length && there.every((record) => record.mark === "ink")) return "done";
  return "begun";
}
