"use client";

import { useEffect, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { useDesk } from "./DeskContext";

/** Takes back, and does again, one's own acts. */
export function UndoButtons() {
  const { opened, mayWrite } = useDesk();
  const { undo, takeBack, doAgain } = opened.acts;
  const [can, setCan] = useState({ undo: false, redo: false });
  useEffect(() => {
    const read = () => setCan({ undo: undo.canUndo(), redo: undo.canRedo() });
    read();
    return undo.watch(read);
  }, [undo]);
  if (!mayWrite) return null;
  return (
    <div className={controls.toggles}>
      <button
        type="button"
        className={controls.toggle}
        disabled={!can.undo}
        onClick={takeBack}
        title="Take back your last act"
      >
        Undo
      </button>
      <button
        type="button"
        className={controls.toggle}
        disabled={!can.redo}
        onClick={doAgain}
        title="Do it again"
      >
        Redo
      </button>
    </div>
  );
}
