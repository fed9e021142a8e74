"use client";

import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { clockText } from "@/lib/client/format/format";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { useDesk } from "./DeskContext";
import styles from "./guitar.module.css";
import { guitarActs } from "./guitarActs";

/** Over the lanes, while the part is shown on another guitar or holds what its own lacks: what, and what can be done. */
export function GuitarBar() {
  const desk = useDesk();
  const { guitar, written, grid, mayWrite, select } = desk;
  const { shownOn, read, moving } = guitar;
  if (!shownOn && read.flags.size === 0 && !moving) return null;
  const on = shownOn?.copedent ?? written.head.copedent;
  const flagged = [...read.flags.values()];

  return (
    <section className={styles.bar} aria-label="The part's guitar">
      <div className={styles.line}>
        <p role="status">
          {moving ? (
            moving.words
          ) : shownOn ? (
            <>
              You see the part on <strong>{on.name}</strong>; it is written for {written.head.copedent.name},
              and is not changed.
              {guitar.anewCount > 0 ? ` ${guitar.anewCount} placed anew, for you alone.` : null}
            </>
          ) : (
            <>
              The part holds what <strong>{on.name}</strong> lacks.
            </>
          )}
        </p>
        <div className={styles.acts}>
          {moving || (shownOn && flagged.length > 0) ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => (moving ? placeFinder().cancel() : void guitarActs(desk).placeAnew(on))}
            >
              {moving ? "Stop" : "Place them anew"}
            </button>
          ) : null}
          {shownOn && mayWrite ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => void guitarActs(desk).carryOver(shownOn)}
            >
              Carry the part over
            </button>
          ) : null}
          {shownOn ? (
            <button type="button" className={controls.act} onClick={() => guitar.showOn(null)}>
              Back to its own
            </button>
          ) : null}
        </div>
      </div>
      {moving ? <Bar label={moving.words} fraction={moving.fraction} /> : null}
      {flagged.length > 0 ? (
        <details className={styles.flags}>
          <summary>
            {flagged.length === 1 ? "1 event" : `${flagged.length} events`} marked ! cannot be played on it
          </summary>
          <ul>
            {flagged.map(({ written: event, reasons }) => (
              <li key={event.id}>
                <button
                  type="button"
                  className={`${controls.link} ${styles.where}`}
                  onClick={() => {
                    const shown = read.part.find(({ id }) => id === event.id);
                    const string = shown?.strings[0] ?? 1;
                    select({ kind: "caret", caret: { string, timeSec: event.startSec } });
                  }}
                >
                  {placeWords(grid, event.startSec) || clockText(event.startSec, true)}
                </button>
                <span>{reasons.join(" ")}</span>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
