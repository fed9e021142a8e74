"use client";

import { useMemo, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { browserStore } from "@/lib/client/page/browserStore";
import { KeptDrafts } from "@/lib/client/questions/KeptDrafts";
import { openQuestions, questionsOn } from "@/lib/client/questions/openQuestions";
import { barName, openWords, stretchTimes } from "@/lib/client/questions/questionWords";
import { ask } from "@/lib/document/commands/questions";
import type { ShownQuestion } from "@/lib/document/records/questions";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { AskButton } from "./AskButton";
import { useAsking } from "./askPanel";
import { useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import { PageTurns } from "./PageTurns";
import { QuestionCard } from "./QuestionCard";
import styles from "./questions.module.css";
import { selectedQuestion, selectedSpan } from "./selection";
import { DraftsHere } from "./useDrafts";
import { usePages } from "./usePages";
import { WordsForm } from "./WordsForm";

/** So many cards at a time. */
const PAGE_CARDS = 12;

/** What is asked about the passage at hand, or the whole song: as cards, the open ones first, the settled ones folded. */
export function Questions() {
  const { opened, selection, page, atHand } = useDesk();
  const { questions } = opened.song;
  const { writing } = useAsking();
  const [drafts] = useState(() => new KeptDrafts({ userId: page.me.id, songId: page.id }, browserStore));
  const [isWhole, setWhole] = useState(false);
  const [isWanted, setWanted] = useState(false);
  // While something else is in hand, what can be done with that comes first; a sheet of its own always shows all.
  const mayFold = selection !== null && selection.kind !== "question" && writing === null;
  const isFolded = mayFold && !isWanted;
  const { study } = atHand;
  const isHere = study !== null && !isWhole;
  const there = useMemo(
    () => (isHere && study ? questionsOn(questions, study) : questions),
    [questions, study, isHere],
  );
  const selected = selectedQuestion(opened.song, selection);
  // The one in hand stays where it is while it is settled, and shows wherever it lies.
  const open = useMemo(
    () => there.filter((each) => !each.settled || each.id === selected?.id),
    [there, selected?.id],
  );
  const shown = selected && !open.includes(selected) ? [selected, ...open] : open;
  const settled = there.filter((each) => each.settled && each.id !== selected?.id);
  return (
    <DraftsHere value={drafts}>
      <section className={`${styles.panel} ${isFolded ? styles.folded : ""}`} aria-label="Questions">
        <div className={styles.head}>
          <h2>Questions</h2>
          {writing?.kind === "ask" ? null : <AskButton className={`${controls.button} ${styles.askHere}`} />}
          {mayFold ? (
            <button
              type="button"
              className={`${controls.button} ${styles.show}`}
              aria-expanded={!isFolded}
              onClick={() => setWanted(!isWanted)}
            >
              {isFolded ? "Show" : "Fold"}
            </button>
          ) : null}
        </div>
        <p className={styles.count}>
          {openWords(there, isHere ? "on this passage" : "in this song")}
          {study ? (
            <button type="button" className={controls.link} onClick={() => setWhole(!isWhole)}>
              {isWhole ? "only this passage" : `in the whole song ${openQuestions(questions).length} open`}
            </button>
          ) : null}
        </p>
        <div className={styles.rest}>
          {writing?.kind === "ask" ? <AskForm stretch={writing.stretch} /> : null}
          <Cards label="Open questions" questions={shown} inHandId={selected?.id ?? null} />
          {settled.length > 0 ? (
            <FoldedList summary={`Settled (${settled.length})`}>
              {() => <Cards label="Settled questions" questions={settled} inHandId={null} />}
            </FoldedList>
          ) : null}
        </div>
      </section>
    </DraftsHere>
  );
}

/** Cards, page by page; the page goes along with the question in hand. */
function Cards({
  label,
  questions,
  inHandId,
}: {
  label: string;
  questions: readonly ShownQuestion[];
  inHandId: string | null;
}) {
  const at = inHandId === null ? -1 : questions.findIndex(({ id }) => id === inHandId);
  const pages = usePages(questions, at, { size: PAGE_CARDS });
  const { first, rows, count } = pages;
  if (questions.length === 0) return null;
  return (
    <>
      <ol className={styles.cards} aria-label={label}>
        {rows.map((question) => (
          <li key={question.id}>
            <QuestionCard question={question} />
          </li>
        ))}
      </ol>
      {count > 1 ? (
        <div className={styles.pages}>
          <PageTurns pages={pages}>
            <span>
              {first + 1} to {first + rows.length} of {questions.length}
            </span>
          </PageTurns>
        </div>
      ) : null}
    </>
  );
}

/** Where a question is written; what is selected meanwhile is what it is about. */
function AskForm({ stretch: atFirst }: { stretch: HeardStretch }) {
  const { opened, selection, select, grid } = useDesk();
  const { startSec, endSec } = selectedSpan(opened.song, selection, grid) ?? atFirst;
  const bar = barName({ startSec, endSec }, grid);
  return (
    <WordsForm
      label="What do you want to know?"
      draft="ask"
      cardId={null}
      act="Ask"
      placeholder="Pedals or slide?"
      head={
        <p>
          About <span className={styles.chip}>{stretchTimes({ startSec, endSec })}</span> {bar}
        </p>
      }
      send={(words) => {
        const [id] = opened.acts.run((ctx) => ask(ctx, { startSec, endSec, words })) ?? [];
        if (!id) return null;
        select({ kind: "question", id });
        return id;
      }}
    />
  );
}
