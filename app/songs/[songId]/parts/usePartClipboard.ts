import { useEffect, useRef } from "react";
import { CLIP_TYPE } from "@/lib/client/song/clipType";
import type { Desk } from "./DeskContext";
import { isTyping } from "./keyTarget";
import { clipActsHere, fetchClipActs, withClip } from "./laterClip";

/** The browser's own copy, cut and paste, by whatever key or menu, while one is in the part. */
export function usePartClipboard(desk: Desk): void {
  const now = useRef(desk);
  now.current = desk;
  const isInPart = desk.selection?.kind === "caret" || desk.selection?.kind === "events";
  useEffect(() => {
    if (isInPart) fetchClipActs().catch(() => undefined);
  }, [isInPart]);
  useEffect(() => {
    const isInPart = () =>
      now.current.selection?.kind === "caret" || now.current.selection?.kind === "events";
    function onCopy(event: ClipboardEvent) {
      // Text that is marked on the page is what is to be copied.
      const isText = document.getSelection()?.isCollapsed === false;
      if (isTyping(event.target) || isText || !isInPart()) return;
      const isCut = event.type === "cut" && now.current.mayWrite;
      const acts = clipActsHere(now.current);
      // The event's clipboard is gone by the time they come; then it goes as by their buttons.
      if (!acts) void withClip(now.current, (late) => (isCut ? late.cut() : late.copy()));
      if (!acts || acts.toClipboard(event.clipboardData, isCut)) event.preventDefault();
    }
    function onPaste(event: ClipboardEvent) {
      if (isTyping(event.target) || !isInPart() || !now.current.mayWrite) return;
      event.preventDefault();
      const read = (type: string) => event.clipboardData?.getData(type) ?? "";
      const texts = { own: read(CLIP_TYPE), text: read("text/plain") };
      void withClip(now.current, (acts) => acts.fromClipboard(texts));
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
