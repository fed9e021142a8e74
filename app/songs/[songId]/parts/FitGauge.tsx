import { fitText } from "@/lib/fit/fitWords";
import type { Certainty } from "@/lib/hearing/Hearing";
import styles from "./fit.module.css";

/** How well something fits the record, as a number and as a bar of tenths; the number says all that the bar does. */
export function FitGauge({ fit }: { fit: Certainty }) {
  return (
    <span className={styles.gauge}>
      <span className={styles.number}>{fitText(fit)}</span>
      <span className={styles.bar} aria-hidden="true">
        <i style={{ width: `${Math.round(fit * 100)}%` }} />
      </span>
    </span>
  );
}
