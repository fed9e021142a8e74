"use client";

import { type ReactNode, useEffect } from "react";
import type { FoldableLane } from "@/lib/client/lanes/KeptLanes";
import { useDesk } from "./DeskContext";
import { LaneHeading } from "./LaneHeading";
import { FoldHere, useKeptLanes } from "./laneFoldContext";
import styles from "./lanes.module.css";
import type { Selection } from "./selection";

/** In which lane lies what can be selected there. */
const LANE_OF: Partial<Record<NonNullable<Selection>["kind"], FoldableLane>> = {
  section: "sections",
  change: "changes",
  bass: "bass",
  note: "heard",
  band: "heard",
  caret: "part",
};

/**
 * A lane that its name folds and opens. Folded, only the name is left; whoever selects something in it, by the keys say,
 * opens it, since what is in hand must be seen.
 */
export function LaneFold({
  lane,
  name,
  children,
}: {
  lane: FoldableLane;
  name: string;
  children: ReactNode;
}) {
  const { selection } = useDesk();
  const { kept, shown } = useKeptLanes();
  const isFolded = shown.folded.includes(lane);
  const isInHand = selection !== null && LANE_OF[selection.kind] === lane;
  useEffect(() => {
    if (selection && isInHand) kept.open(lane);
  }, [kept, lane, isInHand, selection]);
  return (
    <FoldHere value={{ isFolded, toggle: () => kept.toggle(lane) }}>
      {isFolded ? (
        <section className={`${styles.lane} ${styles.foldedLane}`} aria-label={name}>
          <div className={styles.gutter}>
            <LaneHeading name={name} />
          </div>
          <div className={styles.foldedTrack} />
        </section>
      ) : (
        children
      )}
    </FoldHere>
  );
}
