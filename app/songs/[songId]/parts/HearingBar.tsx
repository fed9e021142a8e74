"use client";

import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { hearingWords, isHearing } from "@/lib/client/hearing/hearingWords";
import { useHearing } from "@/lib/client/hearing/useHearing";
import { useDesk } from "./DeskContext";
import styles from "./desk.module.css";

/** How far the machine is with listening; cancel it, or hear it again where it failed. */
export function HearingBar() {
  const { page, opened, mayWrite } = useDesk();
  const { fault, isAsking, hearAgain, cancel } = useHearing(page.id);
  const status = opened.hearing ?? page.hearing;
  if (!status || status.state === "done") return null;

  const words = hearingWords(status);
  return (
    <section className={styles.hearing} aria-label="Hearing">
      <span role="status">{words}</span>
      {isHearing(status) ? <Bar label={words} fraction={status.fraction} /> : null}
      {mayWrite && isHearing(status) ? (
        <button type="button" className={controls.button} disabled={isAsking} onClick={cancel}>
          Cancel
        </button>
      ) : null}
      {mayWrite && !isHearing(status) ? (
        <button type="button" className={controls.button} disabled={isAsking} onClick={hearAgain}>
          Hear it again
        </button>
      ) : null}
      {fault ? <span role="alert">{fault}</span> : null}
    </section>
  );
}
