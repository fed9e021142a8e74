import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { useDesk } from "./DeskContext";
import styles from "./listening.module.css";
import { listeningActs } from "./listeningActs";

/** The record taken out, clicks on its beats, and how loud both are. */
export function ListeningBeside() {
  const desk = useDesk();
  const { player, grid } = desk;
  const { isMuted, isClicking, clickLevel, level } = usePlayerState(player);
  const acts = listeningActs(desk);
  return (
    <fieldset className={styles.group}>
      <legend>Record and click</legend>
      <div className={styles.row}>
        <button type="button" className={controls.button} aria-pressed={isMuted} onClick={acts.toggleMute}>
          Mute the record
        </button>
        <button
          type="button"
          className={controls.button}
          aria-pressed={isClicking}
          disabled={!grid && !isClicking}
          onClick={acts.toggleClick}
        >
          Click on the beats
        </button>
      </div>
      <label className={styles.slider}>
        <span>click</span>
        <input
          type="range"
          min={0}
          max={100}
          value={Math.round(clickLevel * 100)}
          aria-valuetext={percentText(clickLevel)}
          onChange={({ target }) => player.setClickLevel(Number(target.value) / 100)}
        />
        <span className={styles.figure} aria-hidden="true">
          {percentText(clickLevel)}
        </span>
      </label>
      <label className={styles.slider}>
        <span>level</span>
        <input
          type="range"
          min={0}
          max={100}
          value={Math.round(level * 100)}
          aria-valuetext={percentText(level)}
          onChange={({ target }) => player.setLevel(Number(target.value) / 100)}
        />
        <span className={styles.figure} aria-hidden="true">
          {percentText(level)}
        </span>
      </label>
      {grid ? null : <p className={styles.note}>The beats are not known yet: nothing clicks.</p>}
    </fieldset>
  );
}
