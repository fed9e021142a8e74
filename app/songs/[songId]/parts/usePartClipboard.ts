import { useEffect, useRef } from "react";
import { clipActs } from "./clipActs";
import type { Desk } from "./DeskContext";
import { isTyping } from "./keyTarget";

/** The browser's own copy, cut and paste, by whatever key or menu, while one is in the part. */
export function usePartClipboard(desk: Desk): void {
  const now = useRef(desk);
  now.current = desk;
  useEffect(() => {
    const isInPart = () =>
      now.current.selection?.kind === "caret" || now.current.selection?.kind === "events";
    function onCopy(event: ClipboardEvent) {
      // Text that is marked on the page is what is to be copied.
      const isText = document.getSelection()?.isCollapsed === false;
      if (isTyping(event.target) || isText || !isInPart()) return;
      const isCut = event.type === "cut" && now.current.mayWrite;
      if (clipActs(now.current).toClipboard(event.clipboardData, isCut)) event.preventDefault();
    }
    function onPaste(event: ClipboardEvent) {
      if (isTyping(event.target) || !isInPart() || !now.current.mayWrite) return;
      event.preventDefault();
      clipActs(now.current).fromClipboard(event.clipboardData);
    }
    document.addEventListener("copy", onCopy);
    document.addEventListener("cut", onCopy);
    document.addEventListener("paste", onPaste);
    return () => {
      document.removeEventListener("copy", onCopy);
      document.removeEventListener("cut", onCopy);
      document.removeEventListener("paste", onPaste);
    };
  }, []);
}
