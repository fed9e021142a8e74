"use client";

import { type ReactNode, useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { zoomAxis } from "@/lib/client/axis/timeAxis";
import { clockText, percentText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_RANGES } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { Listening } from "./laterParts";
import { AGAIN_SEC, listeningActs } from "./listeningActs";
import { listeningPanel, useListeningPanel } from "./listeningPanel";
import { listeningWords } from "./listeningWords";
import { RecordTake } from "./RecordTake";
import { selectedSpan } from "./selection";
import styles from "./transport.module.css";
import { loopSelection } from "./transportActs";
import { UndoButtons } from "./UndoButtons";

/** The foot: play, where one is, loop, speed with the pitch kept, level, listening, zoom, undo, tab. */
export function Transport({
  folds,
  onTab,
  onKeys,
}: {
  /** Buttons that raise the folded columns. */
  folds: ReactNode;
  onTab: () => void;
  onKeys: () => void;
}) {
  const desk = useDesk();
  const { player, axis, opened, selection, grid } = desk;
  const state = usePlayerState(player);
  const span = selectedSpan(opened.song, selection, grid);
  const { isOpen } = useListeningPanel();
  const words = listeningWords(state.listening, state.isMuted, state.isClicking);
  // By the beats that the song has now is counted in and clicked.
  useEffect(() => player.setBeats(grid), [player, grid]);
  useEffect(() => () => listeningPanel.open(false), []);
  return (
    <section className={styles.transport} aria-label="Transport">
      {isOpen ? <Listening /> : null}
      <button
        type="button"
        className={styles.play}
        aria-label={state.isPlaying ? "Pause" : "Play"}
        onClick={() => player.toggle()}
      >
        <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
          {state.isPlaying ? (
            <path d="M3 2h4v14H3zM11 2h4v14h-4z" fill="currentColor" />
          ) : (
            <path d="M4 1.5v15L16 9z" fill="currentColor" />
          )}
        </svg>
      </button>
      <TimeFigures />
      <div className={controls.toggles}>
        <button
          type="button"
          className={controls.toggle}
          aria-pressed={state.loop !== null}
          disabled={state.loop === null && span === null}
          onClick={() => loopSelection(desk)}
        >
          Loop it
        </button>
        <button
          type="button"
          className={`${controls.toggle} ${styles.once}`}
          aria-pressed={state.loop === null}
          onClick={() => player.setLoop(null)}
        >
          Once
        </button>
      </div>
      <button
        type="button"
        className={controls.button}
        title="The last seconds again (F6)"
        onClick={() => listeningActs(desk).again()}
      >
        −{AGAIN_SEC} s
      </button>
      <label className={styles.slider}>
        <span>speed, pitch kept</span>
        <span className={styles.sliderRow}>
          <input
            type="range"
            min={LISTENING_RANGES.speed[0] * 100}
            max={LISTENING_RANGES.speed[1] * 100}
            step={5}
            value={Math.round(state.speed * 100)}
            aria-valuetext={percentText(state.speed)}
            onChange={(event) => player.setSpeed(Number(event.target.value) / 100)}
          />
          <output className={styles.figure}>{percentText(state.speed)}</output>
        </span>
      </label>
      <label className={`${styles.slider} ${styles.level}`}>
        <span>level</span>
        <span className={styles.sliderRow}>
          <input
            type="range"
            min={0}
            max={100}
            step={1}
            value={Math.round(state.level * 100)}
            aria-valuetext={percentText(state.level)}
            onChange={(event) => player.setLevel(Number(event.target.value) / 100)}
          />
        </span>
      </label>
      <button
        type="button"
        className={`${controls.button} ${styles.listening}`}
        aria-expanded={isOpen}
        title={words === "" ? "Listening (F8)" : `Listening (F8): ${words}`}
        onClick={() => listeningPanel.open(!isOpen)}
      >
        Listening
        {words === "" ? null : <span className={styles.differs}>{words}</span>}
      </button>
      {state.isCautioned ? (
        <p className={styles.caution} role="status">
          Loud for a long while: rest your ears or turn it down.
        </p>
      ) : null}
      <RecordTake />
      <div className={styles.side}>
        <div className={styles.sheets}>
          {folds}
          <button type="button" className={controls.button} onClick={onTab}>
            Tab out
          </button>
        </div>
        <UndoButtons />
        <div className={controls.toggles}>
          {(["−", "+"] as const).map((sign) => (
            <button
              key={sign}
              type="button"
              className={controls.toggle}
              aria-label={sign === "+" ? "Zoom in" : "Zoom out"}
              onClick={() =>
                axis.glide((now) => zoomAxis(now, sign === "+" ? 1.4 : 1 / 1.4, now.widthPx / 2))
              }
            >
              {sign}
            </button>
          ))}
        </div>
        <button
          type="button"
          className={`${controls.button} ${styles.keys}`}
          aria-label="Keys"
          title="Keys"
          onClick={onKeys}
        >
          ?
        </button>
      </div>
    </section>
  );
}

/** Writes words straight into the page, only where they are others: to write the same lays the page out and paints it again. */
function write(into: HTMLElement | null, words: string): void {
  if (into && into.textContent !== words) into.textContent = words;
}

/** Time and bar, looked at on every frame. */
function TimeFigures() {
  const { player, grid } = useDesk();
  const time = useRef<HTMLSpanElement>(null);
  const place = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const tell = (timeSec: number) => {
      write(time.current, clockText(timeSec, true));
      write(place.current, placeWords(grid, timeSec));
    };
    tell(player.timeSec);
    return player.onTime(tell);
  }, [player, grid]);
  return (
    <p className={styles.time}>
      <span className={styles.clock} ref={time} />
      <span className={styles.place} ref={place} />
    </p>
  );
}
