"use client";

import { useEffect, useRef } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { textScale } from "@/lib/client/page/textScale";
import { LEAST_PX } from "@/lib/client/questions/askedLayout";
import { firstWords, questionLine } from "@/lib/client/questions/questionWords";
import type { ShownQuestion } from "@/lib/document/records/questions";
import type { Seconds } from "@/lib/units/quantities";
import styles from "./asked.module.css";
import { askedActs } from "./askedActs";
import { useDesk } from "./DeskContext";

/** Narrower than this, a box shows its sign and no words. In text of the usual size. */
const WORDS_FROM_PX = 48;
/** The same for one that says first that it is settled. */
const SETTLED_FROM_PX = 104;

/** One question in its lane, by its first words; a second click answers it. */
export function QuestionBox({
  question,
  row,
  endSec,
}: {
  question: ShownQuestion;
  row: number;
  /** As it is drawn. */
  endSec: Seconds;
}) {
  const desk = useDesk();
  const { axis, grid, opened, selection, select, nameOf } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const { id, startSec, settled } = question;
  const isSelected = selection?.kind === "question" && selection.id === id;
  const isHeld = opened.others.some(({ cursor }) => cursor?.recordId === id);
  const box = useRef<HTMLButtonElement>(null);
  const keepsFocus = selection === null || selection.kind === "question";
  useEffect(() => {
    if (isSelected && document.activeElement?.matches("[data-question]"))
      box.current?.focus({ preventScroll: true });
    else if (!isSelected && !keepsFocus && document.activeElement === box.current) box.current?.blur();
  }, [isSelected, keepsFocus]);
  const left = Math.round((startSec - anchorSec) * pxPerSec) + 1;
  const scale = textScale();
  const width = Math.max(LEAST_PX * scale, Math.round((endSec - anchorSec) * pxPerSec) - left) - 1;
  const line = questionLine(question, grid, nameOf);
  return (
    <button
      ref={box}
      type="button"
      className={`${styles.box} ${settled ? styles.settled : styles.open} ${isSelected ? styles.selected : ""} ${isHeld ? styles.heldByOther : ""}`}
      style={{ left, width, top: `calc(${row} * var(--row))` }}
      aria-pressed={isSelected}
      title={line}
      tabIndex={isSelected ? 0 : -1}
      data-question={id}
      onClick={() => select({ kind: "question", id })}
      onDoubleClick={() => askedActs(desk).reply()}
    >
      <span className="unseen">{line}</span>
      <span className={styles.sign} aria-hidden="true">
        {settled ? "✓" : "?"}
      </span>
      {width / scale >= (settled ? SETTLED_FROM_PX : WORDS_FROM_PX) ? (
        <span className={styles.words} aria-hidden="true">
          {settled ? <em>settled </em> : null}
          {firstWords(question)}
        </span>
      ) : null}
    </button>
  );
}
