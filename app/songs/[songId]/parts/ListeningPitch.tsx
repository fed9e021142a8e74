import controls from "@/app/parts/controls.module.css";
import { centsText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_RANGES } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import styles from "./listening.module.css";
import { listeningActs } from "./listeningActs";
import { retuneText, semitonesText } from "./listeningWords";

/** How high the record is heard: by half steps, and by cents besides. */
export function ListeningPitch() {
  const desk = useDesk();
  const { semitones, cents } = usePlayerState(desk.player).listening;
  const acts = listeningActs(desk);
  const { tuning } = desk.opened.song;
  const [least, most] = LISTENING_RANGES.semitones;
  return (
    <fieldset className={styles.group}>
      <legend>Pitch</legend>
      <div className={styles.row}>
        <div className={controls.toggles}>
          <button
            type="button"
            className={controls.toggle}
            aria-label="A half step lower"
            disabled={semitones === least}
            onClick={() => acts.move(-1)}
          >
            −
          </button>
          <button
            type="button"
            className={controls.toggle}
            aria-label="A half step higher"
            disabled={semitones === most}
            onClick={() => acts.move(1)}
          >
            +
          </button>
        </div>
        <span className={styles.figure}>{semitonesText(semitones)}</span>
      </div>
      <label className={styles.slider}>
        <span>retune</span>
        <input
          type="range"
          min={LISTENING_RANGES.cents[0]}
          max={LISTENING_RANGES.cents[1]}
          step={1}
          value={Math.round(cents)}
          aria-valuetext={retuneText(cents)}
          onChange={({ target }) => acts.set({ cents: Number(target.value) })}
        />
        <span className={styles.figure} aria-hidden="true">
          {retuneText(cents)}
        </span>
      </label>
      <div className={styles.row}>
        <button type="button" className={controls.button} disabled={!tuning} onClick={acts.toA440}>
          To A440{tuning ? ` (${centsText(-tuning.tuningCents)})` : ""}
        </button>
      </div>
    </fieldset>
  );
}
