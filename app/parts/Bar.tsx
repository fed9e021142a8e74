import styles from "./Bar.module.css";

/** How far something long is; the words beside it say what is being done. */
export function Bar({ label, fraction }: { label: string; fraction: number }) {
  const percent = Math.round(Math.min(1, Math.max(0, fraction)) * 100);
  return (
    <div
      className={styles.well}
      role="progressbar"
      aria-label={label}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={percent}
    >
      <div className={styles.done} style={{ transform: `scaleX(${percent / 100})` }} />
    </div>
  );
}
