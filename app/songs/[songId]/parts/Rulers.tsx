"use client";

import type { RulerKind } from "@/lib/client/lanes/KeptLanes";
import { useDesk } from "./DeskContext";
import { useKeptLanes } from "./laneFoldContext";
import { Ruler } from "./Ruler";
import styles from "./ruler.module.css";
import { SecondsRuler } from "./SecondsRuler";

const WORDS: Record<RulerKind, string> = { bars: "bars", seconds: "seconds", both: "bars and seconds" };

/** What the lanes are measured by: bars and beats, seconds, or both, as the person likes; before the beats are known, seconds. */
export function Rulers() {
  const { grid, selection } = useDesk();
  const { kept, shown } = useKeptLanes();
  const { ruler } = shown;
  // A beat that is in hand is moved in the ruler of bars.
  const showsBars = !grid || ruler !== "seconds" || selection?.kind === "beat";
  return (
    <>
      <div className={styles.rulers}>
        {showsBars ? <Ruler /> : null}
        {grid && ruler !== "bars" ? <SecondsRuler /> : null}
      </div>
      {grid ? (
        <button
          type="button"
          className={styles.rulerSwitch}
          title={`The ruler counts in ${WORDS[ruler]}. Choose the next: bars, seconds, both`}
          onClick={kept.nextRuler}
        >
          <span className="unseen">The ruler counts in </span>
          <span className={styles.rulerWord}>{ruler}</span>
          <svg className={styles.rulerSign} width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
            <path d="M1 2v10M5 6v6M9 6v6M13 2v10" stroke="currentColor" strokeWidth="1.5" />
          </svg>
        </button>
      ) : null}
    </>
  );
}
