import { useEffect, useRef } from "react";

/** Ctrl K (on a Mac Cmd K) opens the search of acts, from fields too, but not over another dialog. */
export function useSearchKey(open: () => void): void {
  const latest = useRef(open);
  latest.current = open;
  useEffect(() => {
    function onKeyDown(event: KeyboardEvent) {
      const isIt = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
      if (!isIt || event.key.toLowerCase() !== "k") return;
      event.preventDefault();
      if (!document.querySelector("dialog:modal")) latest.current();
    }
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}
