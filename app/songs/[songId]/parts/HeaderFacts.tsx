"use client";

import { otherBarsWords } from "@/lib/client/beats/gridWords";
import { shortName } from "@/lib/client/copedents/copedentWords";
import { centsText, printed, sureText } from "@/lib/client/format/format";
import { divisionWords, freeWords, meterText } from "@/lib/client/song/meterWords";
import type { RecordBase } from "@/lib/document/records/records";
import { usualMeter } from "@/lib/notation/beats/meter";
import { keyToWords } from "@/lib/theory/key";
import { beatActs } from "./beatActs";
import { capital, markWords } from "./changeWords";
import { useDesk } from "./DeskContext";
import { gridMarkWords } from "./gridMarkWords";
import { guessActs } from "./guessActs";
import styles from "./header.module.css";
import { homeAt, isHomeUnseen } from "./selection";

const DYING_AWAY_SEC = 1;

/** What is known of the song as a whole: home, beats and meter, tuning, instrument; pencil dashed, ink plain. */
export function HeaderFacts() {
  const desk = useDesk();
  const { page, opened, grid, copedent, guitar, nameOf, select } = desk;
  const { song } = opened;
  const meter = grid ? usualMeter(grid) : 0;
  const { tuning, grid: gridRecord } = song;
  const home = homeAt(song, 0);
  const markOf = (record: RecordBase) => (record.mark === "pencil" ? styles.pencil : "");
  const sureOf = (record: RecordBase) =>
    record.mark === "pencil" && record.confidence !== null ? (
      <em className={styles.sure}>{sureText(record.confidence)}</em>
    ) : null;
  // Where the record only dies away, nobody expects a beat.
  const isFree = gridRecord?.freeStretches.some(({ endSec }) => endSec < page.durationSec - DYING_AWAY_SEC);
  const gridWords =
    grid && gridRecord
      ? [
          `${capital(gridMarkWords(gridRecord, nameOf))}.`,
          divisionWords(meter, gridRecord.division),
          otherBarsWords(grid),
          freeWords(gridRecord, grid),
        ]
          .filter((words) => words !== "")
          .join(" ")
      : "";
  return (
    <dl className={styles.facts}>
      <div>
        <dt>Home</dt>
        <dd>
          {home ? (
            <button
              type="button"
              className={`${styles.home} ${markOf(home)}`}
              title={`${capital(markWords(home, nameOf))}. Take it in hand: H`}
              onClick={() => select({ kind: "home", id: home.id })}
            >
              {printed(keyToWords(home))}
            </button>
          ) : isHomeUnseen(song, 0) ? (
            <button type="button" className={styles.home} onClick={() => guessActs(desk).open("home")}>
              covered: make your guess
            </button>
          ) : (
            "not known"
          )}
          {home ? sureOf(home) : null}
        </dd>
      </div>
      {grid && gridRecord ? (
        <div title={gridWords}>
          <dt className="unseen">Tempo and meter</dt>
          <dd>
            <button
              type="button"
              className={`${styles.home} ${markOf(gridRecord)}`}
              title={`${gridWords} Take a beat in hand: X`}
              onClick={beatActs(desk).chooseHere}
            >
              <b>{Math.round(grid.tempoBpm)}</b> bpm · {meterText(meter, gridRecord.division)}
            </button>
            {otherBarsWords(grid) ? <span className={styles.free}> · other bars in places</span> : null}
            {isFree ? <span className={styles.free}> · free in places</span> : null}
          </dd>
        </div>
      ) : null}
      {tuning ? (
        <div title={capital(markWords(tuning, nameOf))}>
          <dt>runs</dt>
          <dd>
            <span className={markOf(tuning)}>
              <b>{centsText(tuning.tuningCents)}</b> of A440
            </span>
          </dd>
        </div>
      ) : null}
      <div className={styles.instrument}>
        <dt className="unseen">Instrument</dt>
        <dd>
          <button
            type="button"
            className={styles.home}
            title={`${copedent.name}: choose the part's guitar`}
            onClick={() => guitar.openSheet(true)}
          >
            {shortName(copedent)}, {copedent.strings.length} strings
          </button>
        </dd>
      </div>
    </dl>
  );
}
