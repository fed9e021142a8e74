"use client";

import controls from "@/app/parts/controls.module.css";
import type { AskedFit } from "@/lib/client/fit/fitMessages";
import { type FitReading, useFitReading } from "@/lib/client/fit/useFit";
import type { FitAnswer } from "@/lib/fit/FitAnswer";
import { fitWords, nearestWords } from "@/lib/fit/fitWords";
import { capital } from "./changeWords";
import { useDesk } from "./DeskContext";
import { FitGauge } from "./FitGauge";
import styles from "./fit.module.css";
import { namingAt } from "./fitNaming";

/** Near misses that are shown. */
const SHOWN = 3;

/**
 * How well what is selected fits the record: a sentence with its number, and the near misses that read best, to hear or
 * to take.
 */
export function FitHere<N extends FitAnswer["nearest"][number]>({
  asked,
  heard,
  take,
}: {
  asked: AskedFit | null;
  /** Sounds a near miss; null where it cannot be sounded. */
  heard: ((near: N) => void) | null;
  /** Puts a near miss in place of what is selected; null where nothing can be written. */
  take: ((near: N) => void) | null;
}) {
  const { fit, opened } = useDesk();
  const reading = useFitReading(fit, asked, opened.song.tuning?.tuningCents ?? null);
  if (!asked) return null;
  return (
    <section className={styles.here} aria-label="Against the record">
      <h3 className={styles.name}>Against the record</h3>
      <Reading reading={reading} timeSec={asked.passage.startSec} heard={heard} take={take} />
    </section>
  );
}

function Reading<N extends FitAnswer["nearest"][number]>({
  reading: { answer, fault },
  timeSec,
  heard,
  take,
}: {
  reading: FitReading;
  timeSec: number;
  heard: ((near: N) => void) | null;
  take: ((near: N) => void) | null;
}) {
  const { opened } = useDesk();
  if (fault) return <p className={controls.fault}>{fault}</p>;
  if (!answer) return <p className={styles.waits}>Listening again.</p>;
  const words = nearestWords(answer, namingAt(opened.song, timeSec));
  return (
    <>
      <p className={styles.says} aria-live="polite">
        <FitGauge fit={answer.fit} />
        <span>
          {capital(fitWords(answer.fit))}
          {words[0] ? `; ${words[0]}` : ""}
        </span>
      </p>
      <ul className={styles.nearest}>
        {answer.nearest.slice(0, SHOWN).map((near, at) => (
          <li key={words[at]}>
            <span>{capital(words[at] ?? "")}</span>
            {heard ? (
              <button
                type="button"
                className={controls.button}
                aria-label={`Hear it: ${words[at]}`}
                onClick={() => heard(near as N)}
              >
                hear
              </button>
            ) : null}
            {take ? (
              <button
                type="button"
                className={controls.button}
                aria-label={`Take it: ${words[at]}`}
                onClick={() => take(near as N)}
              >
                take
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </>
  );
}
