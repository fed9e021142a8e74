"use client";

import { type ReactNode, useEffect, useRef } from "react";
import type { FoldableLane } from "@/lib/client/lanes/KeptLanes";
import { useDesk } from "./DeskContext";
import { LaneHeading } from "./LaneHeading";
import { FoldHere, useKeptLanes } from "./laneFoldContext";
import styles from "./lanes.module.css";
import type { Selection } from "./selection";

/** In which lane lies what can be selected there. */
const LANE_OF: Partial<Record<NonNullable<Selection>["kind"], FoldableLane>> = {
  section: "sections",
  question: "asked",
  change: "changes",
  bass: "bass",
  note: "heard",
  band: "heard",
  take: "takes",
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
  return (
    <Folding
      name={name}
      isFolded={shown.folded.includes(lane)}
      toggle={() => kept.toggle(lane)}
      open={() => kept.open(lane)}
      isInHand={selection !== null && LANE_OF[selection.kind] === lane}
    >
      {children}
    </Folding>
  );
}

/** A lane that is folded and opened by what keeps it so, see {@link LaneFold}. */
export function Folding({
  name,
  label = name,
  isFolded,
  toggle,
  open,
  isInHand,
  children,
}: {
  name: string;
  /** What it is called where it is heard and not seen. */
  label?: string;
  isFolded: boolean;
  toggle: () => void;
  /** Opens it where it is folded. */
  open: () => void;
  /** Whether something in it is selected. */
  isInHand: boolean;
  children: ReactNode;
}) {
  const { selection } = useDesk();
  const opening = useRef(open);
  opening.current = open;
  useEffect(() => {
    if (selection && isInHand) opening.current();
  }, [isInHand, selection]);
  return (
    <FoldHere value={{ isFolded, toggle }}>
      {isFolded ? (
        <section className={`${styles.lane} ${styles.foldedLane}`} aria-label={label}>
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
