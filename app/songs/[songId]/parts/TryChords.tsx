"use client";

import controls from "@/app/parts/controls.module.css";
import { useFitReading } from "@/lib/client/fit/useFit";
import { plainChords } from "@/lib/client/song/plainChords";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import { changeActs } from "./changeActs";
import { changeText } from "./changeWords";
import { useDesk } from "./DeskContext";
import { FitGauge } from "./FitGauge";
import fit from "./fit.module.css";
import { numberKeyAt } from "./selection";
import styles from "./try.module.css";

/** The 1, the 4 and the 5 of home where a change is: how each fits, to hear and to take. */
export function TryChords({ change }: { change: ShownChange }) {
  const { opened } = useDesk();
  const key = numberKeyAt(opened.song, change.startSec);
  // The 1, the 4 and the 5 would tell of home, or of none.
  if (!key) return null;
  return (
    <section className={fit.here} aria-label="The 1, 4 and 5 here">
      <h3 className={fit.name}>Try by ear: Z plays the next, Enter takes it</h3>
      <ul className={styles.chords}>
        {plainChords(key).map((label) => (
          <TryChord key={label} label={label} change={change} />
        ))}
      </ul>
    </section>
  );
}

function TryChord({ label, change }: { label: string; change: ShownChange }) {
  const desk = useDesk();
  const { opened, mayWrite, triedChord } = desk;
  const { startSec, endSec } = change;
  const { answer } = useFitReading(
    desk.fit,
    { passage: { startSec, endSec }, guess: { kind: "chord", label } },
    opened.song.tuning?.tuningCents ?? null,
  );
  const { degree, rest, letters } = changeText(label, numberKeyAt(opened.song, startSec));
  const acts = changeActs(desk);
  const words = `${degree}${rest}, ${letters}`;
  return (
    <li className={triedChord === label ? styles.tried : ""}>
      <span className={styles.chord}>
        <b>
          {degree}
          <sup>{rest}</sup>
        </b>{" "}
        {letters}
      </span>
      {answer ? <FitGauge fit={answer.fit} /> : <span className={styles.waits}>…</span>}
      <button
        type="button"
        className={controls.button}
        aria-label={`Hear ${words}`}
        onClick={() => acts.tryChord(label)}
      >
        hear
      </button>
      {mayWrite ? (
        <button
          type="button"
          className={controls.button}
          aria-label={`Take ${words}`}
          disabled={change.label === label && change.mark === "ink"}
          onClick={() => acts.take(label)}
        >
          take
        </button>
      ) : null}
    </li>
  );
}
