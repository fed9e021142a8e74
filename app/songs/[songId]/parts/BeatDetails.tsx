"use client";

import controls from "@/app/parts/controls.module.css";
import { otherBarsWords } from "@/lib/client/beats/gridWords";
import { divisionWords } from "@/lib/client/song/meterWords";
import { beatToInBar } from "@/lib/notation/barGrid";
import { freeAt } from "@/lib/notation/beats/freeTime";
import { usualMeter } from "@/lib/notation/beats/meter";
import { BEAT_STEP_SEC, beatActs } from "./beatActs";
import styles from "./beats.module.css";
import { capital } from "./changeWords";
import columns from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { gridMarkWords } from "./gridMarkWords";
import { MeterForm } from "./MeterForm";
import { PlayIt } from "./PlayIt";
import { TapPanel } from "./TapPanel";

/** The beat in hand: where it lies in its bar, and all that can be done with beats and bars. */
export function BeatDetails() {
  const desk = useDesk();
  const { opened, selection, grid, nameOf, mayWrite } = desk;
  const record = opened.song.grid;
  const acts = beatActs(desk);
  const { beat, bar } = acts;
  if (!record || !grid || beat === null || selection?.kind !== "beat")
    return mayWrite ? (
      <>
        <h2>Beats</h2>
        <p className={columns.marks}>Not known yet.</p>
        <TapPanel />
      </>
    ) : null;
  const sec = grid.beatsSec[beat] ?? selection.timeSec;
  const place = beatToInBar(grid, beat);
  const length = bar && bar.number > 0 ? bar.endBeat - bar.startBeat : usualMeter(grid);
  const isFree = freeAt(record.freeStretches, sec) !== null;
  const words = [divisionWords(usualMeter(grid), record.division), otherBarsWords(grid)];
  return (
    <>
      <h2>Beat</h2>
      <p className={columns.big} role="status">
        <span>{place}</span>
        <small>
          {bar && bar.number > 0 ? `of bar ${bar.number}` : "of the upbeat"}
          {isFree ? ", in free time" : ""}
        </small>
      </p>
      <p>
        {Math.round(grid.tempoBpm)} beats a minute, {usualMeter(grid)} to the bar.{" "}
        {words.filter((each) => each !== "").join(" ")}
      </p>
      <p className={columns.marks}>{capital(gridMarkWords(record, nameOf))}</p>
      {mayWrite ? (
        <>
          <TapPanel />
          <h3 className={styles.name}>This beat</h3>
          <div className={styles.row}>
            <Act words="It is 1" act={() => acts.downbeat(beat, "song")} />
            <Act words="It is 1 from here on" act={() => acts.downbeat(beat, "onward")} />
            <Act words="10 ms earlier" act={() => acts.move(beat, sec - BEAT_STEP_SEC)} />
            <Act words="10 ms later" act={() => acts.move(beat, sec + BEAT_STEP_SEC)} />
            <Act words="Add one after it" act={acts.add} />
            <Act words="Take it out" act={acts.rubOut} />
          </div>
          <h3 className={styles.name}>Its bar</h3>
          <MeterForm key={`${beat}.${length}`} now={length} />
          <h3 className={styles.name}>All beats</h3>
          <div className={styles.row}>
            <Act words="Half as many" act={acts.halve} />
            <Act words="Twice as many" act={acts.double} />
            <Act
              words="10 ms earlier"
              label="All beats 10 ms earlier"
              act={() => acts.shift(-BEAT_STEP_SEC)}
            />
            <Act words="10 ms later" label="All beats 10 ms later" act={() => acts.shift(BEAT_STEP_SEC)} />
            <span className={controls.toggles}>
              {([2, 3] as const).map((parts) => (
                <button
                  key={parts}
                  type="button"
                  className={controls.toggle}
                  aria-pressed={record.division === parts}
                  onClick={() => acts.division(parts)}
                >
                  in {parts === 2 ? "two" : "three"}
                </button>
              ))}
            </span>
            {isFree ? <Act words="Not free time" act={acts.free} /> : null}
          </div>
        </>
      ) : null}
      <div className={columns.acts}>
        {mayWrite ? (
          <button type="button" className={controls.act} onClick={acts.ink} disabled={record.mark === "ink"}>
            Ink the beats
          </button>
        ) : null}
        <PlayIt />
      </div>
    </>
  );
}

function Act({ words, label, act }: { words: string; label?: string; act: () => void }) {
  return (
    <button type="button" className={controls.button} aria-label={label} onClick={act}>
      {words}
    </button>
  );
}
