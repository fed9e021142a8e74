import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { useDesk } from "./DeskContext";
import { ListeningSlider } from "./ListeningSlider";
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
      <ListeningSlider
        label="click"
        value={clickLevel * 100}
        range={[0, 100]}
        words={percentText(clickLevel)}
        onChange={(percent) => player.setClickLevel(percent / 100)}
      />
      <ListeningSlider
        label="level"
        value={level * 100}
        range={[0, 100]}
        words={percentText(level)}
        onChange={(percent) => player.setLevel(percent / 100)}
      />
      {grid ? null : <p className={styles.note}>The beats are not known yet: nothing clicks.</p>}
    </fieldset>
  );
}
