import styles from "./bench.module.css";

/** How easy something is against the easiest, in words, as a number and as a bar. */
export function EaseGauge({ of, ease }: { of: string; ease: number }) {
  return (
    <>
      <span className={styles.ease}>
        <span>{of}</span>
        <span>{ease}</span>
      </span>
      <span className={styles.easeBar} aria-hidden="true">
        <i style={{ width: `${ease}%` }} />
      </span>
    </>
  );
}
