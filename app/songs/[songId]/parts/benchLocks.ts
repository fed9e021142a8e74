import { useSyncExternalStore } from "react";
import { LockStore, NOTHING_LOCKED } from "@/lib/client/places/LockStore";

/** The locks of the bench: the page's own, not the song's. */
export const benchLocks = new LockStore();

/** What is held now, and whether it is being set. */
export function useBenchLocks() {
  return useSyncExternalStore(benchLocks.watch, benchLocks.now, () => NOTHING_LOCKED);
}
