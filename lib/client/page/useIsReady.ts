import { useSyncExternalStore } from "react";

const never = () => () => {};

/**
 * False in the page as the server sends it, true once its scripts run: what cannot act yet should not look as if
 * it could.
 */
export function useIsReady(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
}
