"use client";

import { printed } from "@/lib/client/format/format";
import { guessText } from "@/lib/client/lesson/guessText";
import { answerText } from "@/lib/client/lesson/outcomeWords";
import type { ShownGuess } from "@/lib/document/records/guesses";
import { fitText } from "@/lib/fit/fitWords";
import { comparisonWords } from "@/lib/lesson/comparisonWords";
import styles from "./guess.module.css";

/** Guesses at one place, the latest first, beside what stands there. @param there null while it is covered */
export function GuessTable({ guesses, there }: { guesses: readonly ShownGuess[]; there: string | null }) {
  if (guesses.length === 0)
    return (
      <p className={styles.none}>
        {there === null
          ? "Nothing guessed here yet. Listen, then type or play what you take it for."
          : `There: ${there}.`}
      </p>
    );
  return (
    <div className={styles.side}>
      <table>
        <thead>
          <tr>
            <th scope="col">Your guess</th>
            <th scope="col">Fit</th>
            <th scope="col">Hints</th>
            <th scope="col">There</th>
          </tr>
        </thead>
        <tbody>
          {guesses.map((guess) => (
            <tr key={guess.id}>
              <td>{printed(guessText(guess, null))}</td>
              <td>{guess.fit === null ? "–" : fitText(guess.fit)}</td>
              <td>{guess.hintCount}</td>
              <td>
                {guess.outcome ? (
                  <>
                    {guess.outcome.answer ? (
                      <>
                        <b>{answerText(guess)}</b>
                        <br />
                      </>
                    ) : null}
                    {comparisonWords(guess.outcome.comparison)}
                  </>
                ) : (
                  (there ?? "covered")
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
