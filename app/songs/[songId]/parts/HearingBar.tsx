"use client";

import { useState } from "react";
import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { hearingWords, isHearing } from "@/lib/client/hearing/hearingWords";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { HearingStatus } from "@/lib/contracts/books";
import { useDesk } from "./DeskContext";
import styles from "./desk.module.css";

/** How far the machine is with listening; cancel it, or hear it again where it failed. */
export function HearingBar() {
  const { page, opened, mayWrite } = useDesk();
  const [fault, setFault] = useState<string | null>(null);
  const status: HearingStatus | null = opened.hearing ?? page.hearing;
  if (!status || status.state === "done") return null;

  async function ask(method: "POST" | "DELETE") {
    setFault(null);
    try {
      await request<HearingStatus>(method, api.hearing(page.id));
    } catch (thrown) {
      setFault(wordsOf(thrown));
    }
  }

  const words = hearingWords(status);
  return (
    <section className={styles.hearing} aria-label="Hearing">
      <span role="status">{words}</span>
      {isHearing(status) ? <Bar label={words} fraction={status.fraction} /> : null}
      {mayWrite && isHearing(status) ? (
        <button type="button" className={controls.button} onClick={() => ask("DELETE")}>
          Cancel
        </button>
      ) : null}
      {mayWrite && !isHearing(status) ? (
        <button type="button" className={controls.button} onClick={() => ask("POST")}>
          Hear it again
        </button>
      ) : null}
      {fault ? <span role="alert">{fault}</span> : null}
    </section>
  );
}
