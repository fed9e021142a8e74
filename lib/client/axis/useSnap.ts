import { useSyncExternalStore } from "react";
import type { SnapStore } from "./SnapStore";
import type { Snap } from "./snap";

/** To what times snap now. */
export function useSnap(store: SnapStore): Snap {
  return useSyncExternalStore(store.watch, store.now, store.now).snap;
}
