"use client";

import controls from "@/app/parts/controls.module.css";
import { tapWords } from "@/lib/client/beats/gridWords";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { useDesk } from "./DeskContext";
import { TapButton } from "./TapButton";
import { useTaps } from "./useTaps";

/** Tap beats while the record plays, see what they make, and lay them. */
export function TapPanel() {
  const desk = useDesk();
  const { taps, fitted } = useTaps(desk.taps);
  const { isPlaying } = usePlayerState(desk.player);
  const acts = beatActs(desk);
  return (
    <section className={styles.taps} aria-label="Tap the beats">
      <div className={styles.row}>
        <TapButton words="Tap a beat" isDownbeat={false} />
        <TapButton words="Tap a 1" isDownbeat />
        {isPlaying ? null : (
          <button type="button" className={controls.button} onClick={() => desk.player.toggle()}>
            Play
          </button>
        )}
      </div>
      <p className={controls.note} aria-live="polite">
        {taps.length === 0
          ? "Play the record and tap T on each beat, 1 where a bar begins. Nothing is written before you lay them."
          : tapWords(taps.length, fitted)}
      </p>
      {taps.length > 0 ? (
        <div className={styles.row}>
          <button
            type="button"
            className={controls.act}
            disabled={!fitted}
            onClick={() => acts.layTaps("record")}
          >
            Lay them over the record
          </button>
          {acts.grid ? (
            <button
              type="button"
              className={controls.button}
              disabled={!fitted}
              onClick={() => acts.layTaps("tapped")}
            >
              Only where I tapped
            </button>
          ) : null}
          <button type="button" className={controls.button} onClick={() => desk.taps.takeBack()}>
            Take the last back
          </button>
          <button type="button" className={controls.button} onClick={acts.dropTaps}>
            Drop them
          </button>
        </div>
      ) : null}
    </section>
  );
}
