import { useEffect } from "react";

/** Has the browser ask before the page is left altogether, while there is something that would be lost. */
export function useAskBeforeLeaving(isNeeded: boolean): void {
  useEffect(() => {
    if (!isNeeded) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [isNeeded]);
}
