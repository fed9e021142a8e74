"use client";

import { useEffect, useRef } from "react";
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
  const inHand = useRef<HTMLElement>(null);
  const before = useRef<string>(null);
  const { id: idAtHand } = parts.atHand;
  useEffect(() => {
    const isTaken = before.current !== null && before.current !== idAtHand;
    before.current = idAtHand;
    // What is taken in hand is seen; as the page is opened it stays where it is.
    if (!isTaken) return;
    if (idAtHand === FIRST_PART) lanes.kept.open("part");
    else parts.kept.open(idAtHand);
    if (!isInPart) inHand.current?.scrollIntoView({ block: "nearest" });
  }, [idAtHand, isInPart, lanes.kept, parts.kept]);
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
        {id === parts.atHand.id ? <PartLane ref={inHand} /> : <OtherPartLane part={part} />}
      </Folding>
    );
  });
}
