"use client";

import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useHearing } from "@/lib/client/hearing/useHearing";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";

/** Another hearing of a song that was heard; the bar over the lanes offers it where a hearing ended early. */
export function HearAgain() {
  const { page, opened, mayWrite } = useDesk();
  const { fault, isAsking, hearAgain } = useHearing(page.id);
  const status = opened.hearing ?? page.hearing;
  if (!mayWrite || (status !== null && status.state !== "done")) return null;
  return (
    <div className={styles.again}>
      <button type="button" className={controls.button} disabled={isAsking} onClick={hearAgain}>
        {status === null ? "Hear it" : "Hear it again"}
      </button>
      <p>The machine listens anew and pencils anew. Ink stays untouched.</p>
      <FaultWords words={fault} />
    </div>
  );
}
