"use client";

import controls from "@/app/parts/controls.module.css";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";

/** Taps a beat when it is pressed, not when it is let go; by the keyboard as any button. */
export function TapButton({ words, isDownbeat }: { words: string; isDownbeat: boolean }) {
  const desk = useDesk();
  const tap = (timeStamp: number) => beatActs(desk).tap(isDownbeat, performance.now() - timeStamp);
  return (
    <button
      type="button"
      className={`${controls.button} ${styles.tap}`}
      onPointerDown={(event) => event.button === 0 && tap(event.timeStamp)}
      onClick={(event) => event.detail === 0 && tap(event.timeStamp)}
    >
      {words}
    </button>
  );
}
