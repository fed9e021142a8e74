"use client";

import { useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { isLoopOf } from "@/lib/client/practice/PracticeKeeper";
import { answersWords, barName, questionLine, TAKEN_BACK } from "@/lib/client/questions/questionWords";
import { reword } from "@/lib/document/commands/questions";
import type { ShownQuestion } from "@/lib/document/records/questions";
import { Answers } from "./Answers";
import { askPanel, useAsking } from "./askPanel";
import { useDesk } from "./DeskContext";
import { questionActs } from "./questionActs";
import styles from "./questions.module.css";
import { ReplyForm } from "./ReplyForm";
import { SaidBy } from "./Said";
import { StretchChip } from "./StretchChip";
import { audible } from "./selection";
import { loopStretch } from "./transportActs";
import { WordsForm } from "./WordsForm";

/** One question; the one in hand with its answers and what can be done with it. */
export function QuestionCard({ question }: { question: ShownQuestion }) {
  const desk = useDesk();
  const { selection, grid, nameOf, mayWrite, opened } = desk;
  const { writing, focusId } = useAsking();
  const { id, settled, answers, isTakenBack } = question;
  const isSelected = selection?.kind === "question" && selection.id === id;
  const isWriting = writing?.kind === "reply" && writing.id === id;
  const isWording = writing?.kind === "reword" && writing.id === id;
  const isOpen =
    isSelected || isWriting || (writing?.kind === "reword" && answers.some((each) => each.id === writing.id));
  const acts = questionActs(desk);
  const card = useRef<HTMLElement>(null);
  useEffect(() => {
    if (isSelected) card.current?.scrollIntoView({ block: "nearest" });
  }, [isSelected]);
  useEffect(() => {
    if (focusId !== id) return;
    card.current?.focus();
    askPanel.focused();
  }, [focusId, id]);
  const bar = barName(question, grid);
  return (
    <article
      ref={card}
      tabIndex={-1}
      className={`${styles.card} ${settled ? styles.settled : ""} ${isSelected ? styles.selected : ""}`}
      aria-label={questionLine(question, grid, nameOf)}
    >
      <SaidBy by={question.by} atMs={question.atMs}>
        {bar ? <span className={styles.where}>· {bar}</span> : null}
        <StretchChip stretch={question} go={() => acts.go(question)} />
      </SaidBy>
      {isWording ? (
        <WordsForm
          label="Your question, in other words"
          draft={`reword.${id}`}
          cardId={id}
          atFirst={question.words}
          act="Keep it so"
          send={(words) => opened.acts.run((ctx) => reword(ctx, id, words)) && id}
        />
      ) : isOpen ? (
        <p className={styles.said}>{isTakenBack ? TAKEN_BACK : question.words}</p>
      ) : (
        <button
          type="button"
          className={styles.unfold}
          aria-expanded={false}
          onClick={() => acts.go(question)}
        >
          {isTakenBack ? TAKEN_BACK : question.words}
        </button>
      )}
      {settled || question.rewordedAtMs !== null || !isOpen ? (
        <p className={styles.how}>
          {settled ? <strong>Settled by {nameOf(settled.by)}. </strong> : null}
          {question.rewordedAtMs === null ? "" : "Worded anew. "}
          {isOpen ? null : answersWords(answers)}
        </p>
      ) : null}
      {isOpen ? (
        <>
          <Answers question={question} />
          {isWriting ? <ReplyForm question={question} /> : null}
          <div className={styles.acts}>
            {mayWrite && !isWriting ? (
              <button
                type="button"
                className={controls.button}
                onClick={() => askPanel.write({ kind: "reply", id })}
              >
                Reply
              </button>
            ) : null}
            <LoopQuestion question={question} />
            {mayWrite && isSelected ? (
              <button type="button" className={controls.button} onClick={acts.settle}>
                {!settled
                  ? "Settled"
                  : answers.some((each) => each.isSinceSettled)
                    ? "Still settled"
                    : "Open again"}
              </button>
            ) : null}
          </div>
          {mayWrite && isSelected && acts.isOwn && !isTakenBack && !isWording ? (
            <div className={styles.own}>
              <button type="button" className={controls.link} onClick={acts.reword}>
                Word it otherwise
              </button>
              <button type="button" className={controls.link} onClick={acts.takeBack}>
                Take it back
              </button>
            </div>
          ) : null}
        </>
      ) : null}
    </article>
  );
}

/** Plays where it was asked over and over; a moment in its bar. */
function LoopQuestion({ question }: { question: ShownQuestion }) {
  const desk = useDesk();
  const { loop } = usePlayerState(desk.player);
  const stretch = audible(question, desk.grid) ?? question;
  const isOn = isLoopOf(loop, stretch);
  return (
    <button
      type="button"
      className={controls.button}
      aria-pressed={isOn}
      onClick={() => loopStretch(desk.player, stretch)}
    >
      {isOn ? "Stop looping" : "Loop it"}
    </button>
  );
}
