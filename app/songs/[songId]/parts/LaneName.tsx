import styles from "./lanes.module.css";

/** Name of a lane, left of it; what it stands on, below. */
export function LaneName({ name, note }: { name: string; note: string }) {
  return (
    <div className={styles.gutter}>
      <h2 className={styles.laneName}>{name}</h2>
      <p className={styles.laneNote}>{note}</p>
    </div>
  );
}
