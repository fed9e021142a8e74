"use client";

import { useDesk } from "./DeskContext";
import { LaneFold } from "./LaneFold";
import { TakesLane } from "./laterParts";
import { useTakeShelf } from "./useTakeRecorder";

/** The lane of takes, where there are any. */
export function TakesHereLane() {
  const desk = useDesk();
  const { takes } = useTakeShelf(desk);
  if (takes.length === 0) return null;
  return (
    <LaneFold lane="takes" name="Takes">
      <TakesLane />
    </LaneFold>
  );
}
