"use client";

import { type CSSProperties, type KeyboardEvent, useRef } from "react";
import { openCount } from "@/lib/client/questions/openQuestions";
import { studyRows } from "@/lib/client/song/studyRows";
import { studyLine, studyName } from "@/lib/client/song/studyWords";
import { useDesk } from "./DeskContext";
import { OpenSign } from "./OpenSign";
import styles from "./studies.module.css";
import { studyActs } from "./studyActs";

/** A tab takes at least this share of the strip, about what its number takes. */
const LEAST_SHARE = 0.024;

/**
 * The passages as numbered tabs under the strip: one stop of the Tab key, the arrow keys go from one to the next. On a narrow
 * screen they stand in a row that scrolls.
 */
export function StripStudies({ share }: { share: (sec: number) => string }) {
  const desk = useDesk();
  const { opened, atHand, grid, page } = desk;
  const { studies, questions } = opened.song;
  const list = useRef<HTMLOListElement>(null);
  if (studies.length === 0) return null;
  const acts = studyActs(desk);
  const rows = studyRows(studies, page.durationSec * LEAST_SHARE);
  const atIndex = studies.findIndex(({ id }) => id === atHand.study?.id);

  function onKeyDown(event: KeyboardEvent, index: number) {
    const to = {
      ArrowLeft: index - 1,
      ArrowRight: index + 1,
      Home: 0,
      End: studies.length - 1,
      Enter: index,
    }[event.key];
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const study = studies[to];
    if (!study) return;
    acts.choose(study);
    list.current?.querySelectorAll("button")[to]?.focus();
  }

  return (
    <ol
      ref={list}
      className={styles.tabs}
      aria-label="Passages of the song"
      style={{ "--rows": Math.max(...rows) + 1 } as CSSProperties}
    >
      {studies.map((study, index) => {
        const isAtHand = index === atIndex;
        const line = studyLine(study, grid, isAtHand);
        return (
          <li
            key={study.id}
            className={`${styles.tab} ${isAtHand ? styles.atHand : ""}`}
            style={
              {
                "--left": share(study.startSec),
                "--width": share(study.endSec - study.startSec),
                "--row": rows[index],
              } as CSSProperties
            }
          >
            <button
              type="button"
              title={line}
              data-study={study.id}
              aria-pressed={isAtHand}
              tabIndex={index === Math.max(0, atIndex) ? 0 : -1}
              onClick={() => acts.choose(study)}
              onKeyDown={(event) => onKeyDown(event, index)}
            >
              <span className="unseen">{line}</span>
              <span className={styles.number} aria-hidden="true">
                {study.number}
              </span>
              <span className={styles.name} aria-hidden="true">
                {studyName(study, grid)}
              </span>
              <OpenSign count={openCount(questions, study)} />
            </button>
          </li>
        );
      })}
    </ol>
  );
}
