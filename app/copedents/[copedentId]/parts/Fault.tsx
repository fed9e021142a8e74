"use client";

import type { ChartField } from "@/lib/client/copedents/ChartField";
import { useCopedentDesk } from "./CopedentContext";
import styles from "./desk.module.css";

/** The id of the words that say what is wrong in a field. */
export function faultId(field: ChartField): string {
  return `fault-${field.replaceAll(" ", "-")}`;
}

/** What is wrong in a field, beside it; nothing where all is well. */
export function Fault({ of }: { of: ChartField }) {
  const words = useCopedentDesk().faults.get(of);
  return words ? (
    <span id={faultId(of)} className={styles.fault} role="alert">
      {words}
    </span>
  ) : null;
}
