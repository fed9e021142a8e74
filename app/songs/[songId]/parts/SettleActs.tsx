"use client";

import type { ReactNode } from "react";
import controls from "@/app/parts/controls.module.css";
import type { RecordBase } from "@/lib/document/records/records";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { PlayIt } from "./PlayIt";

/** What can be done with the selected one of any kind: ink it, loop it and rub it out, with its own acts between. */
export function SettleActs({
  record,
  acts,
  afterInk,
  children,
}: {
  record: RecordBase;
  acts: { ink(): void; rubOut(): void };
  afterInk?: ReactNode;
  children?: ReactNode;
}) {
  const { mayWrite } = useDesk();
  return (
    <div className={styles.acts}>
      {mayWrite ? (
        <button type="button" className={controls.act} onClick={acts.ink} disabled={record.mark === "ink"}>
          Ink it
        </button>
      ) : null}
      {afterInk}
      <PlayIt />
      {children}
      {mayWrite ? (
        <button type="button" className={controls.warn} onClick={acts.rubOut}>
          Rub out
        </button>
      ) : null}
    </div>
  );
}
