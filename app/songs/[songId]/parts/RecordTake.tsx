"use client";

import controls from "@/app/parts/controls.module.css";
import { useDesk } from "./DeskContext";
import { recordActs } from "./recordActs";
import styles from "./transport.module.css";
import { useTakeRecorder } from "./useTakeRecorder";

/** Records a take of what is selected or at hand; while one is recorded, stops it and keeps it. */
export function RecordTake() {
  const desk = useDesk();
  const isOn = useTakeRecorder(desk).step !== "off";
  return (
    <button
      type="button"
      className={`${controls.button} ${styles.take}`}
      aria-pressed={isOn}
      title={isOn ? "Stop the take and keep it (F10)" : "Record a take (F10)"}
      onClick={() => void recordActs(desk).record()}
    >
      <span className={isOn ? styles.stopSign : styles.takeSign} aria-hidden="true" />
      <span>{isOn ? "Stop" : <span className={styles.takeVerb}>Record a</span>} take</span>
    </button>
  );
}
