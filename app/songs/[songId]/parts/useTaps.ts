import { useSyncExternalStore } from "react";
import type { TapSession, TapState } from "@/lib/client/beats/TapSession";

/** What is being tapped now. */
export function useTaps(taps: TapSession): TapState {
  return useSyncExternalStore(taps.watch, taps.now, taps.now);
}
