"use client";

import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import type { ShownQuestion } from "@/lib/document/records/questions";
import { capital, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { PlayIt } from "./PlayIt";

/** The selected question: where it lies; what it says stands among the questions. */
export function QuestionDetails({ question: { startSec, endSec } }: { question: ShownQuestion }) {
  const { grid, axis } = useDesk();
  return (
    <>
      <h2>Question</h2>
      <p>{capital(stretchWords(grid, startSec, endSec))}</p>
      <div className={styles.acts}>
        <PlayIt />
        <button
          type="button"
          className={controls.button}
          onClick={() => axis.change((now) => showStretch(now, startSec, endSec))}
        >
          Show it whole
        </button>
      </div>
    </>
  );
}
