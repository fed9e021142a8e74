"use client";

import controls from "@/app/parts/controls.module.css";
import { barRepeats } from "@/lib/client/song/sectionWords";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { ChordFit } from "@/lib/fit/FitAnswer";
import { NO_CHORD } from "@/lib/theory/harte";
import { BassHere } from "./BassHere";
import { changeActs } from "./changeActs";
import { capital, changeText, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { FitHere } from "./FitHere";
import { fitActs } from "./fitActs";
import { Guesses } from "./Guesses";
import { homeActs } from "./homeActs";
import { runActs } from "./runActs";
import { SettleActs } from "./SettleActs";
import { numberKeyAt } from "./selection";
import { TryChords } from "./TryChords";

/** The selected change. */
export function ChangeDetails({ change }: { change: ShownChange }) {
  const desk = useDesk();
  const { opened, grid, nameOf, mayWrite } = desk;
  const acts = changeActs(desk);
  const key = numberKeyAt(opened.song, change.startSec);
  const { degree, rest, letters } = changeText(change.label, key);
  const repeats = barRepeats(opened.song.sections, change.startSec, grid);
  return (
    <>
      <h2>Change</h2>
      <p className={styles.big}>
        <span>
          {degree}
          <sup className={styles.sup}>{rest}</sup>
        </span>
        <small>{letters}</small>
      </p>
      <p>{capital(stretchWords(grid, change.startSec, change.endSec))}</p>
      {repeats ? <p>{repeats}</p> : null}
      <p className={styles.marks}>{capital(markWords(change, nameOf))}</p>
      <BassHere span={change} />
      <FitHere<ChordFit["nearest"][number]>
        asked={
          change.label === NO_CHORD
            ? null
            : {
                passage: { startSec: change.startSec, endSec: change.endSec },
                guess: { kind: "chord", label: change.label },
              }
        }
        heard={({ label }) => fitActs(desk).hearChord(label, change)}
        take={mayWrite ? ({ label }) => acts.take(label) : null}
      />
      <TryChords change={change} />
      <Guesses
        guesses={change.guesses}
        isStanding={({ label }) => label === change.label}
        show={({ label }) => {
          const text = changeText(label, key);
          return (
            <span>
              <b>
                {text.degree}
                <sup className={styles.sup}>{text.rest}</sup>
              </b>
              {text.letters}
            </span>
          );
        }}
        words={({ label }) => {
          const text = changeText(label, key);
          return `${text.degree}${text.rest}${text.letters ? `, ${text.letters}` : ""}`;
        }}
        take={({ label }) => acts.take(label)}
      />
      <SettleActs
        record={change}
        acts={acts}
        afterInk={
          mayWrite ? (
            <button type="button" className={controls.button} onClick={() => acts.type("")}>
              Change
            </button>
          ) : null
        }
      >
        {mayWrite ? (
          <>
            <button type="button" className={controls.button} onClick={acts.split}>
              Split here
            </button>
            <button type="button" className={controls.button} onClick={acts.merge} disabled={!acts.next}>
              Merge with next
            </button>
            <button type="button" className={controls.button} onClick={() => runActs(desk).open()}>
              Type a run from here
            </button>
            <button type="button" className={controls.button} onClick={homeActs(desk).addHere}>
              Home changes here
            </button>
          </>
        ) : null}
      </SettleActs>
    </>
  );
}
