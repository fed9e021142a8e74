import styles from "./part.module.css";

/** Where the next key is written. */
export function PartCaret({ x, y }: { x: number; y: number }) {
  return <rect className={styles.caret} x={x - 4} y={y - 10} width="20" height="20" rx="3" />;
}
