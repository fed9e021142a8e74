"use client";

import { shortName } from "@/lib/client/copedents/copedentWords";
import { centsText, printed, sureText } from "@/lib/client/format/format";
import { divisionWords, freeWords, gridSureWords, meterText } from "@/lib/client/song/meterWords";
import type { GridRecord, RecordBase } from "@/lib/document/records/records";
import { keyToWords } from "@/lib/theory/key";
import { capital, markWords } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./header.module.css";
import { homeAt } from "./selection";

const DYING_AWAY_SEC = 1;

/** Whose pencil or ink the grid is; the machine is not as sure of the bars as of the beats. */
function gridMarkWords(grid: GridRecord, nameOf: (userId: string) => string): string {
  const sure = gridSureWords(grid);
  return sure ? `${markWords({ ...grid, confidence: null }, nameOf)}, ${sure}` : markWords(grid, nameOf);
}

/** What is known of the song as a whole: home, beats and meter, tuning, instrument; pencil dashed, ink plain. */
export function HeaderFacts() {
  const { page, opened, grid, copedent, guitar, nameOf, select } = useDesk();
  const { song } = opened;
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
          divisionWords(grid.beatsPerBar, gridRecord.division),
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
            <span className={markOf(gridRecord)}>
              <b>{Math.round(grid.tempoBpm)}</b> bpm · {meterText(grid.beatsPerBar, gridRecord.division)}
            </span>
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
