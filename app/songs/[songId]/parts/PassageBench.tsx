"use client";

import controls from "@/app/parts/controls.module.css";
import { wayPlace, wayTraits, wayWords } from "@/lib/client/song/wayWords";
import styles from "./bench.module.css";
import { capital, stretchWords } from "./changeWords";
import { type LaidOut, useDesk } from "./DeskContext";
import { EaseGauge } from "./EaseGauge";
import { LockTags } from "./LockTags";
import { NeckDrawing } from "./NeckDrawing";
import { passageActs } from "./passageActs";

/** A passage that was written into the part in pencil, and the other ways to play it, easiest first. */
export function PassageBench() {
  const desk = useDesk();
  const { laidOut, grid, mayWritePart, layOut } = desk;
  const acts = passageActs(desk);
  if (!laidOut) return null;
  const { startSec, endSec, ways, leftOutCount } = laidOut;
  const { written, standing } = acts;
  const hasPencil = written.some(({ mark }) => mark === "pencil");
  return (
    <section className={styles.bench} aria-label="Where it lies">
      <div className={styles.asked}>
        <h2>Where it lies</h2>
        <p className={styles.note}>{capital(stretchWords(grid, startSec, endSec))}</p>
        <p className={styles.note}>{stateWords(written.length, hasPencil, leftOutCount)}</p>
        <div className={styles.passageActs}>
          {mayWritePart && hasPencil ? (
            <button type="button" className={controls.act} onClick={acts.ink}>
              Ink it
            </button>
          ) : null}
          <button type="button" className={controls.button} onClick={() => layOut(null)}>
            Close
          </button>
        </div>
        <LockTags isResting />
        {ways.length > 1 ? (
          <p className={`${styles.note} ${styles.keyHint}`}>
            <kbd className={controls.key}>N</kbd> next way
          </p>
        ) : null}
      </div>
      <ol className={styles.places}>
        {ways.map((way, index) => (
          <WayCard
            key={wayKey(way)}
            way={way}
            number={index + 1}
            ease={easeOfWay(way, ways[0]!)}
            isChosen={index === standing}
            disabled={!mayWritePart}
            onChoose={() => acts.choose(index)}
          />
        ))}
      </ol>
    </section>
  );
}

function WayCard({
  way,
  number,
  ease,
  isChosen,
  disabled,
  onChoose,
}: {
  way: LaidOut["ways"][number];
  number: number;
  ease: number;
  isChosen: boolean;
  disabled: boolean;
  onChoose: () => void;
}) {
  const { stoppedBy } = useDesk().copedent;
  const traits = wayTraits(way);
  return (
    <li>
      <button
        type="button"
        className={`${styles.card} ${isChosen ? styles.chosen : ""}`}
        aria-pressed={isChosen}
        disabled={disabled}
        onClick={onChoose}
        data-way
      >
        <strong className={styles.place}>
          {number}. {capital(wayPlace(traits))}
        </strong>
        <span className={styles.reason}>{capital(wayWords(traits, stoppedBy))}</span>
        <NeckDrawing places={way.events} />
        <EaseGauge of="ease of the whole" ease={ease} />
      </button>
    </li>
  );
}

/** Two ways may cost the same, but never lie the same. */
function wayKey({ events }: LaidOut["ways"][number]): string {
  return events.map(({ strings, fret, changes }) => [fret, ...strings, ...changes].join(".")).join(" ");
}

/** Ease against the easiest, 0 to 100: half a point of cost more an event halves it. */
function easeOfWay(way: LaidOut["ways"][number], easiest: LaidOut["ways"][number]): number {
  const more = (way.cost - easiest.cost) / Math.max(1, easiest.events.length);
  return Math.round(100 * 2 ** (-more / 0.5));
}

function stateWords(count: number, hasPencil: boolean, leftOutCount: number): string {
  if (count === 0) return "Nothing of it stands in the part now. Choose a way to write it.";
  const events = `${count === 1 ? "1 event" : `${count} events`} in ${hasPencil ? "pencil" : "ink"}.`;
  if (leftOutCount === 0) return events;
  const notes = leftOutCount === 1 ? "1 note was" : `${leftOutCount} notes were`;
  return `${events} ${notes} left out: off this neck, or more at once than a hand picks.`;
}
