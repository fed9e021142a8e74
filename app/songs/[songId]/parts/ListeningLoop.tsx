import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { timesToTop } from "@/lib/client/playback/speedLadder";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_RANGES, type SpeedLadder } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningNumber } from "./ListeningNumber";
import styles from "./listening.module.css";
import { listeningActs } from "./listeningActs";

const COUNT_IN_WORDS = ["none", "1 bar", "2 bars"] as const;

/** How a loop begins and ends, and how its speed grows. */
export function ListeningLoop() {
  const desk = useDesk();
  const { listening } = usePlayerState(desk.player);
  const { seamMs, gapSec, countInBars, preRollSec, ladder } = listening;
  const acts = listeningActs(desk);
  const { set } = acts;
  const climb = (change: Partial<SpeedLadder>) => set({ ladder: { ...ladder, ...change } });
  const [slowest, fastest] = LISTENING_RANGES.speed;
  return (
    <fieldset className={styles.group}>
      <legend>Loop</legend>
      <div className={styles.row}>
        <span className={styles.note} id="count-in">
          count in
        </span>
        <fieldset className={controls.toggles} aria-labelledby="count-in">
          {COUNT_IN_WORDS.map((words, bars) => (
            <button
              key={words}
              type="button"
              className={controls.toggle}
              aria-pressed={countInBars === bars}
              onClick={() => set({ countInBars: bars })}
            >
              {words}
            </button>
          ))}
        </fieldset>
      </div>
      {countInBars > 0 && !desk.grid ? (
        <p className={styles.note}>The beats are not known yet: nothing is counted in.</p>
      ) : null}
      <div className={styles.row}>
        <ListeningNumber
          label="lead-in"
          unit="s"
          value={preRollSec}
          range={LISTENING_RANGES.preRollSec}
          step={0.5}
          onChange={(sec) => set({ preRollSec: sec })}
        />
        <ListeningNumber
          label="gap"
          unit="s"
          value={gapSec}
          range={LISTENING_RANGES.gapSec}
          step={0.5}
          onChange={(sec) => set({ gapSec: sec })}
        />
        <ListeningNumber
          label="seam"
          unit="ms"
          value={seamMs}
          range={LISTENING_RANGES.seamMs}
          step={1}
          onChange={(ms) => set({ seamMs: ms })}
        />
      </div>
      <div className={styles.row}>
        <button
          type="button"
          className={controls.button}
          aria-pressed={ladder.isOn}
          onClick={() => {
            climb({ isOn: !ladder.isOn });
            acts.sayLadder();
          }}
        >
          Speed ladder
        </button>
        <ListeningNumber
          label="from"
          unit="%"
          value={Math.round(ladder.startSpeed * 100)}
          range={[slowest * 100, fastest * 100]}
          step={5}
          onChange={(percent) => climb({ startSpeed: percent / 100 })}
        />
        <ListeningNumber
          label="to"
          unit="%"
          value={Math.round(ladder.endSpeed * 100)}
          range={[slowest * 100, fastest * 100]}
          step={5}
          onChange={(percent) => climb({ endSpeed: percent / 100 })}
        />
        <ListeningNumber
          label="by"
          unit="%"
          value={Math.round(ladder.stepSpeed * 100)}
          range={[LISTENING_RANGES.stepSpeed[0] * 100, LISTENING_RANGES.stepSpeed[1] * 100]}
          step={1}
          onChange={(percent) => climb({ stepSpeed: percent / 100 })}
        />
        <ListeningNumber
          label="each"
          unit={ladder.times === 1 ? "time" : "times"}
          value={ladder.times}
          range={LISTENING_RANGES.times}
          step={1}
          onChange={(times) => climb({ times })}
        />
      </div>
      <p className={styles.note}>
        {percentText(ladder.endSpeed)} after {timesToTop(ladder)} times through.
      </p>
    </fieldset>
  );
}
