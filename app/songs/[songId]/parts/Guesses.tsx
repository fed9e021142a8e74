"use client";

import type { ReactNode } from "react";
import controls from "@/app/parts/controls.module.css";
import { sureText } from "@/lib/client/format/format";
import type { Certainty } from "@/lib/hearing/Hearing";
import { useDesk } from "./DeskContext";
import styles from "./guesses.module.css";

/** What the machine took the selected thing for, likeliest first; each is taken by one click, or one after another by O. */
export function Guesses<G extends { confidence: Certainty }>({
  guesses,
  isStanding,
  show,
  words,
  take,
}: {
  guesses: readonly G[];
  /** Whether a guess says what stands there now. */
  isStanding: (guess: G) => boolean;
  show: (guess: G) => ReactNode;
  /** The guess by its name, for those who hear the page. */
  words: (guess: G) => string;
  take: (guess: G) => void;
}) {
  const { mayWrite } = useDesk();
  if (!guesses.some((guess) => !isStanding(guess))) return null;
  return (
    <div className={styles.guesses}>
      <h3 className={styles.name}>
        The machine heard
        {mayWrite ? (
          <span className={styles.hint}>
            <kbd className={controls.key}>O</kbd> the next
          </span>
        ) : null}
      </h3>
      <ul>
        {guesses.map((guess, place) => (
          <li key={`${place} ${words(guess)}`}>
            <button
              type="button"
              className={styles.guess}
              aria-pressed={isStanding(guess)}
              disabled={!mayWrite}
              onClick={() => !isStanding(guess) && take(guess)}
            >
              <span className="unseen">
                {words(guess)}, {sureText(guess.confidence)} sure
              </span>
              <span className={styles.shown} aria-hidden="true">
                {show(guess)}
                <em>{sureText(guess.confidence)}</em>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
