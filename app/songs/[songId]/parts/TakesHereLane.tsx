"use client";

import { useAskBeforeLeaving } from "@/lib/client/page/useAskBeforeLeaving";
import { useDesk } from "./DeskContext";
import { LaneFold } from "./LaneFold";
import { TakesLane } from "./laterParts";
import { useTakeShelf } from "./useTakeRecorder";

/** The lane of takes, where there are any. */
export function TakesHereLane() {
  const desk = useDesk();
  const { takes, isAtRisk } = useTakeShelf(desk);
  useAskBeforeLeaving(isAtRisk);
  if (takes.length === 0) return null;
  return (
    <LaneFold lane="takes" name="Takes">
      <TakesLane />
    </LaneFold>
  );
}
