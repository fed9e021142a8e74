"use client";

import controls from "@/app/parts/controls.module.css";
import { printed } from "@/lib/client/format/format";
import { LISTENS } from "@/lib/client/player/ListenMix";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { useSteelState, useTrialState } from "@/lib/client/sound/useSteel";
import { useDesk } from "./DeskContext";
import { guessActs } from "./guessActs";
import styles from "./hearIt.module.css";
import { homeAt, selectedChange } from "./selection";
import { balanceWords, LISTEN_WORDS, soundActs } from "./soundActs";

/** Beside the bench: what one listens to, how record and steel are weighed, what plays along, and the place that is tried. */
export function HearIt() {
  const desk = useDesk();
  const { steel, player, trial, opened, selection, mayWritePart } = desk;
  const { listen, balance, isBandOn, isDroneOn, isRepeating, fault } = useSteelState(steel);
  const { tried, isOffered } = useTrialState(trial);
  usePlayerState(player);
  const acts = soundActs(desk);
  const home = homeAt(opened.song, player.timeSec);
  const change = selectedChange(opened.song, selection);
  return (
    <section className={styles.hearIt} aria-label="Hear it">
      <div className={styles.head}>
        <h2>Hear it</h2>
        <p className={styles.note}>
          {tried ? (
            <>
              trying <strong>{tried.name}</strong>
            </>
          ) : (
            LISTEN_WORDS[listen]
          )}
        </p>
      </div>
      <fieldset className={styles.row} aria-label="Listen to">
        <div className={controls.toggles}>
          {LISTENS.map((each) => (
            <button
              key={each}
              type="button"
              className={controls.toggle}
              aria-pressed={listen === each}
              onClick={() => void steel.setListen(each)}
            >
              {each}
            </button>
          ))}
        </div>
        <input
          type="range"
          aria-label="balance of record and steel"
          title={balanceWords(balance)}
          min={-100}
          max={100}
          step={5}
          value={Math.round(balance * 100)}
          disabled={listen !== "both"}
          aria-valuetext={balanceWords(balance)}
          onChange={(event) => steel.setBalance(Number(event.target.value) / 100)}
        />
      </fieldset>
      <div className={styles.along}>
        <button type="button" className={controls.button} aria-pressed={isDroneOn} onClick={acts.toggleDrone}>
          {home ? `Drone on ${printed(home.tonic)}` : "Drone"}
        </button>
        <button type="button" className={controls.button} aria-pressed={isBandOn} onClick={acts.toggleBand}>
          Chords along
        </button>
        {change || isRepeating ? (
          <fieldset className={styles.chord} aria-label="Hear the change as bass and chord">
            <span aria-hidden="true">chord</span>
            <div className={controls.toggles}>
              <button
                type="button"
                className={controls.toggle}
                disabled={!change}
                onClick={() => acts.hearChange(false)}
              >
                once
              </button>
              <button
                type="button"
                className={controls.toggle}
                aria-pressed={isRepeating}
                onClick={() => acts.hearChange(true)}
              >
                looped
              </button>
            </div>
          </fieldset>
        ) : null}
      </div>
      {tried ? (
        <div className={styles.along}>
          {mayWritePart ? (
            <button type="button" className={controls.act} onClick={() => acts.writeTried()}>
              {guessActs(desk).isPlaceGuessed() ? "Guess it" : "Ink it"}
            </button>
          ) : null}
          <button type="button" className={controls.button} onClick={acts.tryNext}>
            Next
          </button>
          <button type="button" className={controls.button} onClick={() => trial.drop()}>
            Leave it
          </button>
        </div>
      ) : isOffered ? (
        <div className={styles.along}>
          <button type="button" className={controls.button} onClick={acts.tryNext}>
            Try a place
          </button>
        </div>
      ) : null}
      {fault ? (
        <p className={styles.fault} role="alert">
          {fault}
        </p>
      ) : null}
    </section>
  );
}
