import { createContext, useContext, useSyncExternalStore } from "react";
import type { KeptLanes, LanesShown } from "@/lib/client/lanes/KeptLanes";

/** What the person has folded, for the lanes and the ruler. */
export const KeptLanesHere = createContext<KeptLanes | null>(null);

export function useKeptLanes(): { kept: KeptLanes; shown: LanesShown } {
  const kept = useContext(KeptLanesHere);
  if (!kept) throw new Error("This part stands outside the lanes.");
  return { kept, shown: useSyncExternalStore(kept.watch, kept.now, kept.now) };
}

/** How the lane around is folded and opened; null in one that cannot be. */
export const FoldHere = createContext<{ isFolded: boolean; toggle: () => void } | null>(null);
