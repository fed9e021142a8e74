import type { ReactNode } from "react";
import { LaneHeading } from "./LaneHeading";
import styles from "./lanes.module.css";

/** Name of a lane, left of it; what it stands on, below, and what can be done with the lane. */
export function LaneName({ name, note, children }: { name: string; note: string; children?: ReactNode }) {
  return (
    <div className={styles.gutter}>
      <LaneHeading name={name} />
      <p className={styles.laneNote}>{note}</p>
      {children}
    </div>
  );
}
