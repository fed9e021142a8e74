import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { timesToTop } from "@/lib/client/playback/speedLadder";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_RANGES, type SpeedLadder } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningChoice } from "./ListeningChoice";
import { ListeningNumber } from "./ListeningNumber";
import styles from "./listening.module.css";
import { listeningActs } from "./listeningActs";

const COUNT_INS = [0, 1, 2];
const COUNT_IN_WORDS = ["none", "1 bar", "2 bars"];
/** What of a speed ladder is set in percent of the record's speed. */
const LADDER_PERCENTS = [
  { label: "from", field: "startSpeed", range: LISTENING_RANGES.speed, step: 5 },
  { label: "to", field: "endSpeed", range: LISTENING_RANGES.speed, step: 5 },
  { label: "by", field: "stepSpeed", range: LISTENING_RANGES.stepSpeed, step: 1 },
] as const;

/** How a loop begins and ends, and how its speed grows. */
export function ListeningLoop() {
  const desk = useDesk();
  const { listening } = usePlayerState(desk.player);
  const { seamMs, gapSec, countInBars, preRollSec, ladder } = listening;
  const acts = listeningActs(desk);
  const { set } = acts;
  const climb = (change: Partial<SpeedLadder>) => set({ ladder: { ...ladder, ...change } });
  return (
    <fieldset className={styles.group}>
      <legend>Loop</legend>
      <div className={styles.row}>
        <span className={styles.note} id="count-in">
          count in
        </span>
        <ListeningChoice
          choices={COUNT_INS}
          chosen={countInBars}
          words={COUNT_IN_WORDS}
          onChoose={(bars) => set({ countInBars: bars })}
          labelledBy="count-in"
        />
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
        {LADDER_PERCENTS.map(({ label, field, range: [least, most], step }) => (
          <ListeningNumber
            key={field}
            label={label}
            unit="%"
            value={Math.round(ladder[field] * 100)}
            range={[least * 100, most * 100]}
            step={step}
            onChange={(percent) => climb({ [field]: percent / 100 })}
          />
        ))}
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
