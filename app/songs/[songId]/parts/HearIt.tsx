"use client";

import controls from "@/app/parts/controls.module.css";
import { printed } from "@/lib/client/format/format";
import { heardBeside } from "@/lib/client/lanes/KeptParts";
import { LISTENS } from "@/lib/client/player/ListenMix";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { soundName } from "@/lib/client/song/partAtHand";
import { useSteelState, useTrialState } from "@/lib/client/sound/useSteel";
import { useDesk } from "./DeskContext";
import { guessActs } from "./guessActs";
import styles from "./hearIt.module.css";
import { HearParts } from "./laterParts";
import { balanceWords, listenWords } from "./listenWords";
import { homeAt, selectedChange } from "./selection";
import { soundActs } from "./soundActs";
import { useKeptShown } from "./useParts";

/** Beside the bench: what one listens to, how record and parts are weighed, what plays along, and the place that is tried. */
export function HearIt() {
  const desk = useDesk();
  const { steel, player, trial, opened, selection, parts, mayWritePart } = desk;
  const { listen, balance, isBandOn, isDroneOn, isRepeating, fault } = useSteelState(steel);
  const { tried, isOffered } = useTrialState(trial);
  usePlayerState(player);
  const acts = soundActs(desk);
  const home = homeAt(opened.song, player.timeSec);
  const change = selectedChange(opened.song, selection);
  const name = soundName(parts.list, parts.atHand.id);
  const beside = heardBeside(parts.list, parts.atHand.id, useKeptShown(parts));
  const besideNames = beside.map(({ id }) => soundName(parts.list, id));
  const weighed = balanceWords(balance, name);
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
            listenWords(listen, name, besideNames)
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
              {each === "parts" ? name : each}
            </button>
          ))}
        </div>
        <input
          type="range"
          aria-label={`balance of record and ${name}`}
          title={weighed}
          min={-100}
          max={100}
          step={5}
          value={Math.round(balance * 100)}
          disabled={listen !== "both"}
          aria-valuetext={weighed}
          onChange={(event) => steel.setBalance(Number(event.target.value) / 100)}
        />
      </fieldset>
      {parts.areSeveral ? <HearParts /> : null}
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
