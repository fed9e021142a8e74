"use client";

import { useContext } from "react";
import { FoldHere } from "./laneFoldContext";
import styles from "./lanes.module.css";

/**
 * The name of a lane; where the lane can be folded, a button that folds and opens it.
 * @param isOver whether it stands over the gutter on a narrow screen, where the lane's own figures fill that
 */
export function LaneHeading({ name, isOver = false }: { name: string; isOver?: boolean }) {
  const fold = useContext(FoldHere);
  if (!fold) return <h2 className={styles.laneName}>{name}</h2>;
  const { isFolded, toggle } = fold;
  return (
    <h2 className={`${styles.laneName} ${isOver ? styles.laneNameOver : ""}`}>
      <button
        type="button"
        className={styles.laneFold}
        aria-expanded={!isFolded}
        title={isFolded ? `Open ${name}` : `Fold ${name} away`}
        onClick={toggle}
      >
        <svg width="9" height="9" viewBox="0 0 9 9" aria-hidden="true">
          <path d={isFolded ? "M2 0.5L7 4.5L2 8.5z" : "M0.5 2L4.5 7L8.5 2z"} fill="currentColor" />
        </svg>
        <span className={styles.laneFoldName}>{name}</span>
        <span className="unseen"> lane</span>
      </button>
    </h2>
  );
}
