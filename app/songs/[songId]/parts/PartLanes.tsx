"use client";

import { FIRST_PART } from "@/lib/document/records/storage";
import { useDesk } from "./DeskContext";
import { Folding } from "./LaneFold";
import { useKeptLanes } from "./laneFoldContext";
import { OtherPartLane } from "./OtherPartLane";
import { PartLane } from "./PartLane";
import { useFoldedParts } from "./useParts";

/** All parts, one under the other, each to be folded by itself; the one in hand is the one that is written in. */
export function PartLanes() {
  const { parts, selection } = useDesk();
  const lanes = useKeptLanes();
  const folded = useFoldedParts(parts);
  const isInPart = selection?.kind === "caret" || selection?.kind === "events";
  return parts.list.map((part) => {
    const { id } = part;
    const isFirst = id === FIRST_PART;
    return (
      <Folding
        key={id}
        name={parts.nameOf(id)}
        isFolded={isFirst ? lanes.shown.folded.includes("part") : folded.includes(id)}
        toggle={() => (isFirst ? lanes.kept.toggle("part") : parts.kept.toggle(id))}
        open={() => (isFirst ? lanes.kept.open("part") : parts.kept.open(id))}
        isInHand={isInPart && id === parts.atHand.id}
      >
        {id === parts.atHand.id ? <PartLane /> : <OtherPartLane part={part} />}
      </Folding>
    );
  });
}
