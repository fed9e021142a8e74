"use client";

import controls from "@/app/parts/controls.module.css";
import type { TracedNote } from "@/lib/client/song/noteTrace";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { hearAlone, hearInRecord } from "./hearNotes";

/** Ways to hear notes: alone, as a steel would play them, and where they sound in the record. */
export function HearActs({
  label,
  what,
  notes,
}: {
  /** As it is seen before the buttons, and as it is said within them: "Hear both", "them together". */
  label: string;
  what: string;
  notes: readonly TracedNote[];
}) {
  const desk = useDesk();
  return (
    <div className={styles.hear}>
      <span aria-hidden="true">{label}</span>
      <div className={controls.toggles}>
        <button
          type="button"
          className={controls.toggle}
          aria-label={`Hear ${what} alone`}
          onClick={() => hearAlone(desk, notes)}
        >
          alone
        </button>
        <button
          type="button"
          className={controls.toggle}
          aria-label={`Hear ${what} in the record`}
          onClick={() => hearInRecord(desk, notes)}
        >
          in the record
        </button>
      </div>
    </div>
  );
}
