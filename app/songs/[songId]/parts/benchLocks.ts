import { useSyncExternalStore } from "react";
import { NOTHING_HELD } from "@/lib/client/places/HeldLocks";
import { LockStore } from "@/lib/client/places/LockStore";

/** The locks of the bench: the page's own, not the song's. */
export const benchLocks = new LockStore();

const NOTHING = { held: NOTHING_HELD, isOpen: false };

/** What is held now, and whether it is being set. */
export function useBenchLocks() {
  return useSyncExternalStore(benchLocks.watch, benchLocks.now, () => NOTHING);
}
