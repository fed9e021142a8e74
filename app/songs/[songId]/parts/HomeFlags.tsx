"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { printed } from "@/lib/client/format/format";
import { keyToWords } from "@/lib/theory/key";
import { useDesk } from "./DeskContext";
import styles from "./homes.module.css";

/** A home that the record begins with is told beside the lane. */
const AT_START_SEC = 0.5;

/** Where home changes within the song: a flag over the changes, to take it in hand. */
export function HomeFlags() {
  const { axis, opened, selection, select } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  return opened.song.homes.map((home, index) => {
    const { id, startSec, mark } = home;
    if ((index === 0 && startSec < AT_START_SEC) || startSec < fromSec || startSec > toSec) return null;
    const isSelected = selection?.kind === "home" && selection.id === id;
    return (
      <button
        key={id}
        type="button"
        tabIndex={-1}
        className={`${styles.flag} ${mark === "pencil" ? styles.pencil : ""} ${isSelected ? styles.selected : ""}`}
        style={{ left: Math.round((startSec - anchorSec) * pxPerSec) }}
        aria-pressed={isSelected}
        data-home={id}
        onClick={() => select({ kind: "home", id })}
      >
        home {printed(keyToWords(home))}
      </button>
    );
  });
}
