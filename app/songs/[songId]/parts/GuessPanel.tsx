"use client";

import { type KeyboardEvent, useEffect, useLayoutEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { useFitReading } from "@/lib/client/fit/useFit";
import { printed } from "@/lib/client/format/format";
import { guessText } from "@/lib/client/lesson/guessText";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { fitWords } from "@/lib/fit/fitWords";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import { capital } from "./changeWords";
import { type Guessing, useDesk } from "./DeskContext";
import { FitGauge } from "./FitGauge";
import { GuessTable } from "./GuessTable";
import styles from "./guess.module.css";
import { openGuessActs } from "./openGuessActs";

const TITLES: Readonly<Record<GuessLane, string>> = {
  home: "Guess home",
  changes: "Guess the change",
  heard: "Guess the notes",
  places: "Guess the place",
};

const PLACEHOLDERS: Readonly<Record<GuessLane, string>> = {
  home: "A, F#, Em",
  changes: "D7, Am, 4, 2-",
  heard: "B4 G4",
  places: "5 6 fret 3 A",
};

/** Keys of the field whose act is done once a press. */
function isOncePressed(key: string): boolean {
  return key === "Enter" || key === "?" || key === "ArrowUp" || key === "ArrowDown";
}

/**
 * Under the lanes, while a guess is made at something covered: the guess held against the record, a hint at a time, and
 * guess and answer side by side once it is uncovered.
 */
export function GuessPanel({ guessing }: { guessing: Guessing }) {
  const desk = useDesk();
  const { lane, startSec, endSec, text, hints } = guessing;
  const { fit, opened, player } = desk;
  const acts = openGuessActs(desk);
  const { said, fault } = acts.read();
  const { loop, isPlaying } = usePlayerState(player);
  const reading = useFitReading(fit, acts.asked(), opened.song.tuning?.tuningCents ?? null);
  const isCovered = acts.isCovered(lane, guessing);
  const answer = isCovered ? null : acts.answer();
  const kept = acts.here();
  const field = useRef<HTMLInputElement>(null);
  const placed = `${lane} ${startSec}`;
  // To the field with each place, and back to where it was opened.
  useEffect(() => {
    if (placed) field.current?.focus({ preventScroll: true });
  }, [placed]);
  useLayoutEffect(() => {
    const opener = document.activeElement;
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
    };
  }, []);

  /** A guess is kept for good, so that one is kept at a time, however often it is asked for while its fit is told. */
  const isKeeping = useRef(false);
  async function keep() {
    if (isKeeping.current) return;
    isKeeping.current = true;
    await acts.keep().finally(() => {
      isKeeping.current = false;
    });
  }

  /** The ways to uncover go with the cover: the field keeps the keys. */
  function uncover(isAll: boolean) {
    acts.uncover(isAll);
    field.current?.focus({ preventScroll: true });
  }

  function onKeyDown(event: KeyboardEvent) {
    if (event.key === "Escape") acts.close();
    else if (event.target !== field.current || event.ctrlKey || event.metaKey) return;
    // Held on, a key would keep guess after guess, or take all hints.
    else if (event.repeat && isOncePressed(event.key)) return event.preventDefault();
    else if (event.key === "Enter") void keep();
    else if (event.key === "?") acts.hint();
    else if (event.key === "ArrowUp") acts.hear();
    else if (event.key === "ArrowDown") acts.hearRecord();
    else if (event.altKey && event.key === "ArrowLeft") acts.step(-1);
    else if (event.altKey && event.key === "ArrowRight") acts.step(1);
    else {
      event.stopPropagation();
      return;
    }
    event.stopPropagation();
    event.preventDefault();
  }

  const isHere = loop?.startSec === startSec && loop.endSec === Math.min(endSec, player.durationSec);
  const place = acts.placeText(guessing);
  return (
    <section className={styles.panel} aria-label="Guess" onKeyDown={onKeyDown}>
      <header className={styles.head}>
        <h2>{TITLES[lane]}</h2>
        <div className={styles.place}>
          {lane === "home" ? null : (
            <button
              type="button"
              className={controls.button}
              aria-label="The place before"
              onClick={() => acts.step(-1)}
            >
              ‹
            </button>
          )}
          <span aria-live="polite">{place}</span>
          {lane === "home" ? null : (
            <button
              type="button"
              className={controls.button}
              aria-label="The place after"
              onClick={() => acts.step(1)}
            >
              ›
            </button>
          )}
        </div>
        {acts.lanes.length > 1 ? (
          <div className={controls.toggles}>
            {acts.lanes.map((each) => (
              <button
                key={each}
                type="button"
                className={controls.toggle}
                aria-pressed={each === lane}
                onClick={() => acts.turnTo(each)}
              >
                {LANE_WORDS[each]}
              </button>
            ))}
          </div>
        ) : null}
        <button type="button" className={`${controls.button} ${styles.close}`} onClick={acts.close}>
          Close
        </button>
      </header>
      <div className={styles.body}>
        <div className={styles.make}>
          <div className={styles.row}>
            <label className={styles.label}>
              <span>Your guess</span>
              <input
                ref={field}
                className={`${controls.input} ${styles.field} ${fault ? styles.fault : ""}`}
                value={text}
                placeholder={PLACEHOLDERS[lane]}
                aria-invalid={fault !== null}
                spellCheck={false}
                autoComplete="off"
                autoCapitalize="off"
                onChange={(event) => acts.type(event.target.value)}
              />
            </label>
            <p className={styles.fit} role="status">
              {fault ? fault : null}
              {!fault && reading.answer ? (
                <>
                  <FitGauge fit={reading.answer.fit} /> {capital(fitWords(reading.answer.fit))}
                </>
              ) : null}
              {!fault && said && !reading.answer ? (reading.fault ?? "Listening again.") : null}
            </p>
          </div>
          <div className={styles.acts}>
            <button
              type="button"
              className={controls.button}
              aria-pressed={isHere && isPlaying}
              onClick={acts.hearRecord}
            >
              Hear the record
            </button>
            <button type="button" className={controls.button} disabled={!said} onClick={acts.hear}>
              Hear your guess
            </button>
            <button type="button" className={controls.act} disabled={!said} onClick={() => void keep()}>
              Keep the guess
            </button>
            {isCovered ? (
              <>
                <button type="button" className={controls.button} onClick={acts.hint}>
                  One hint
                </button>
                <button type="button" className={controls.button} onClick={() => uncover(false)}>
                  Uncover{lane === "home" ? " home" : " it here"}
                </button>
                {lane === "home" ? null : (
                  <button type="button" className={controls.plain} onClick={() => uncover(true)}>
                    Uncover all {LANE_WORDS[lane]}
                  </button>
                )}
              </>
            ) : null}
          </div>
          {hints.length > 0 ? (
            <ol className={styles.hints} aria-label="Hints" aria-live="polite">
              {hints.map((hint) => (
                <li key={hint}>{hint}</li>
              ))}
            </ol>
          ) : null}
        </div>
        <GuessTable
          guesses={kept}
          there={
            answer
              ? answer.said
                ? printed(guessText(answer.said, acts.seenHome(startSec)))
                : "nothing written"
              : null
          }
        />
      </div>
    </section>
  );
}
