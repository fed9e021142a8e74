import { useState } from "react";
import { browserStore } from "@/lib/client/page/browserStore";
import { KeptWalk } from "@/lib/client/walk/KeptWalk";
import { WALK_STEPS } from "./walkSteps";

/** The first walk of the person on this page. */
export function useWalk(userId: string): KeptWalk {
  const [walk] = useState(() => new KeptWalk(userId, WALK_STEPS.length, browserStore));
  return walk;
}
