"use client";

import { useMemo } from "react";
import { dayText } from "@/lib/client/format/format";
import {
  type GuessWeek,
  guessWeeks,
  type LearnerGuesses,
  laneProgress,
  mondayOf,
} from "@/lib/client/lesson/guessHistory";
import type { ShownGuess } from "@/lib/document/records/guesses";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import { capital } from "./changeWords";
import { useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import styles from "./guess.module.css";

/** Rows of a learner that are told of at once: the latest weeks. */
const ROWS = 8;

/** How guesses went over the weeks, learner by learner and lane by lane: how many, how many of those uncovered were right, and hints. */
export function GuessProgress({ guesses }: { guesses: readonly ShownGuess[] }) {
  const learners = useMemo(() => guessWeeks(guesses, mondayOf), [guesses]);
  return learners.map((learner) => <Learner key={learner.by} learner={learner} />);
}

function Learner({ learner: { by, weeks } }: { learner: LearnerGuesses }) {
  const { nameOf } = useDesk();
  const name = capital(nameOf(by));
  return (
    <div className={styles.progress}>
      {laneProgress(weeks).map(({ lane, first, latest }) => (
        <p key={lane}>
          {name}, {LANE_WORDS[lane]}: {rightText(first)} right in the week of {dayText(first.mondayMs)},{" "}
          <b>{rightText(latest)}</b> in that of {dayText(latest.mondayMs)}.
        </p>
      ))}
      <Weeks name={name} weeks={weeks.slice(0, ROWS)} />
      {weeks.length > ROWS ? (
        <FoldedList summary={`${name}, earlier weeks`}>
          {() => <Weeks name={`${name}, earlier`} weeks={weeks.slice(ROWS)} />}
        </FoldedList>
      ) : null}
    </div>
  );
}

function Weeks({ name, weeks }: { name: string; weeks: readonly GuessWeek[] }) {
  const mondays = [...new Set(weeks.map(({ mondayMs }) => mondayMs))];
  return (
    <table>
      <caption>{name}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span className="unseen">Lane</span>
          </th>
          <th scope="col">
            <span className="unseen">Guesses </span>
            <span aria-hidden="true">made</span>
          </th>
          <th scope="col">right</th>
          <th scope="col">hints</th>
        </tr>
      </thead>
      {mondays.map((mondayMs) => (
        <tbody key={mondayMs}>
          <tr className={styles.week}>
            <th scope="rowgroup" colSpan={4}>
              Week of {dayText(mondayMs)}
            </th>
          </tr>
          {weeks
            .filter((week) => week.mondayMs === mondayMs)
            .map((week) => (
              <tr key={week.lane}>
                <th scope="row">{week.lane}</th>
                <td>{week.made}</td>
                <td title={week.told === 0 ? "None of them was uncovered yet, or nothing stood there" : ""}>
                  {week.told === 0 ? "–" : rightText(week)}
                </td>
                <td>{week.hints}</td>
              </tr>
            ))}
        </tbody>
      ))}
    </table>
  );
}

/** Of those that were uncovered and could be compared. */
function rightText({ right, told }: GuessWeek): string {
  return `${right} of ${told}`;
}
