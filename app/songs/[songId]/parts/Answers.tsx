"use client";

import controls from "@/app/parts/controls.module.css";
import { reword, setThere } from "@/lib/document/commands/questions";
import type { ShownAnswer, ShownQuestion } from "@/lib/document/records/questions";
import { askPanel, useAsking } from "./askPanel";
import { useDesk } from "./DeskContext";
import styles from "./questions.module.css";
import { SaidBy } from "./Said";
import { StretchChip } from "./StretchChip";
import { WordsForm } from "./WordsForm";

/** The answers to a question, by when they were given. */
export function Answers({ question }: { question: ShownQuestion }) {
  if (question.answers.length === 0) return null;
  return (
    <ol className={styles.answers} aria-label="Answers">
      {question.answers.map((answer) => (
        <li key={answer.id}>
          <Answer question={question} answer={answer} />
        </li>
      ))}
    </ol>
  );
}

function Answer({ question, answer }: { question: ShownQuestion; answer: ShownAnswer }) {
  const { page, opened, mayWrite, say } = useDesk();
  const { writing } = useAsking();
  const { id, by, words, stretch, isSinceSettled, rewordedAtMs } = answer;
  const isWording = writing?.kind === "reword" && writing.id === id;
  const { run } = opened.acts;
  return (
    <>
      <SaidBy by={by} atMs={answer.atMs}>
        {stretch ? <StretchChip stretch={stretch} /> : null}
      </SaidBy>
      {isWording ? (
        <WordsForm
          label="Your answer, in other words"
          draft={`reword.${id}`}
          cardId={question.id}
          atFirst={words}
          act="Keep it so"
          send={(text) => run((ctx) => reword(ctx, id, text)) && question.id}
        />
      ) : (
        <p className={styles.said}>{words}</p>
      )}
      {isSinceSettled || rewordedAtMs !== null ? (
        <p className={styles.how}>
          {isSinceSettled ? "Answered since it was settled. " : ""}
          {rewordedAtMs === null ? "" : "Worded anew."}
        </p>
      ) : null}
      {mayWrite && by === page.me.id && !isWording ? (
        <div className={styles.own}>
          <button
            type="button"
            className={controls.link}
            onClick={() => askPanel.write({ kind: "reword", id })}
          >
            Word it otherwise
          </button>
          <button
            type="button"
            className={controls.link}
            onClick={() => {
              if (run((ctx) => setThere(ctx, id, false)))
                say('Your answer is taken back; Undo or "Put back" brings it back.');
            }}
          >
            Take it back
          </button>
        </div>
      ) : null}
    </>
  );
}
