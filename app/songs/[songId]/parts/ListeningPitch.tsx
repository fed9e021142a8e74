import controls from "@/app/parts/controls.module.css";
import { centsText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_RANGES } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningSlider } from "./ListeningSlider";
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
      <ListeningSlider
        label="retune"
        value={cents}
        range={LISTENING_RANGES.cents}
        words={retuneText(cents)}
        onChange={(wanted) => acts.set({ cents: wanted })}
      />
      <div className={styles.row}>
        <button type="button" className={controls.button} disabled={!tuning} onClick={acts.toA440}>
          To A440{tuning ? ` (${centsText(-tuning.tuningCents)})` : ""}
        </button>
      </div>
    </fieldset>
  );
}
