"use client";

import { useEffect, useRef } from "react";
import { FIRST_PART } from "@/lib/document/records/storage";
import { useDesk } from "./DeskContext";
import { Folding } from "./LaneFold";
import { useKeptLanes } from "./laneFoldContext";
import { OtherPartLane } from "./OtherPartLane";
import { PartLane } from "./PartLane";
import { partRegionName } from "./partRegionName";
import { partsActs } from "./partsActs";
import { useKeptShown } from "./useParts";
import { showInLanes } from "./useShownInLanes";

/** All parts, one under the other, each to be folded by itself; the one in hand is the one that is written in. */
export function PartLanes() {
  const { now, parts, selection } = useDesk();
  const lanes = useKeptLanes();
  const isInPart = selection?.kind === "caret" || selection?.kind === "events";
  const inHand = useRef<HTMLElement>(null);
  const before = useRef<{ id: string; wanted: string | null }>(null);
  const { id } = parts.atHand;
  const { atHand: wanted, folded } = useKeptShown(parts);
  useEffect(() => {
    const was = before.current;
    before.current = { id, wanted };
    if (!was || was.id === id) return;
    if (wanted !== null && wanted !== id) partsActs(now()).wasTakenAway();
    // What is taken in hand is seen; what comes with the song, or back, stays as it was kept.
    if (wanted === was.wanted) return;
    if (id === FIRST_PART) lanes.kept.open("part");
    else parts.kept.open(id);
    if (!isInPart) showInLanes(inHand.current);
  }, [now, id, wanted, isInPart, lanes.kept, parts.kept]);
  return parts.list.map((part) => {
    const isFirst = part.id === FIRST_PART;
    return (
      <Folding
        key={part.id}
        name={parts.nameOf(part.id)}
        label={partRegionName(part, parts.nameOf(part.id))}
        isFolded={isFirst ? lanes.shown.folded.includes("part") : folded.includes(part.id)}
        toggle={() => (isFirst ? lanes.kept.toggle("part") : parts.kept.toggle(part.id))}
        open={() => (isFirst ? lanes.kept.open("part") : parts.kept.open(part.id))}
        isInHand={isInPart && part.id === id}
      >
        {part.id === id ? <PartLane ref={inHand} /> : <OtherPartLane part={part} />}
      </Folding>
    );
  });
}
