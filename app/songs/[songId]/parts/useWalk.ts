import { useState } from "react";
import { KeptWalk } from "@/lib/client/walk/KeptWalk";
import { WALK_STEPS } from "./walkSteps";

/** The first walk of the person on this page. */
export function useWalk(userId: string): KeptWalk {
  const [walk] = useState(() => new KeptWalk(userId, WALK_STEPS.length, kept));
  return walk;
}

/** Reaching for the browser's store may itself be refused. */
const kept: Pick<Storage, "getItem" | "setItem"> = {
  getItem: (key) => window.localStorage.getItem(key),
  setItem: (key, value) => window.localStorage.setItem(key, value),
};
