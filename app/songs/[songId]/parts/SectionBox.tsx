"use client";

import { type CSSProperties, useEffect, useRef } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { sureText } from "@/lib/client/format/format";
import { sectionName } from "@/lib/client/song/sectionWords";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";
import { LaneField } from "./LaneField";
import { sectionActs } from "./sectionActs";
import { sectionLine } from "./sectionLine";
import styles from "./sections.module.css";
import { selectedSection } from "./selection";

/** Narrower than this, a box says nothing but its name. */
const SURE_FROM_PX = 120;

/** One section in its lane. A click selects the passage, a second one opens its name. */
export function SectionBox({ section }: { section: ShownSection }) {
  const desk = useDesk();
  const { axis, opened, selection, select, typing } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const selected = selectedSection(opened.song, selection);
  const isSelected = selected?.id === section.id && selected.stretch === section.stretch;
  const left = Math.round((section.startSec - anchorSec) * pxPerSec) + 1;
  const width = Math.max(3, Math.round((section.endSec - anchorSec) * pxPerSec) - left - 1);
  const isPencil = section.mark === "pencil";
  const isHeld = opened.others.some(({ cursor }) => cursor?.recordId === section.id);
  const keepsFocus = selection === null || selection.kind === "section";
  const box = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // As in the changes: the focus goes with the selection, and leaves with it.
    if (isSelected && document.activeElement?.matches("[data-section]"))
      box.current?.focus({ preventScroll: true });
    else if (!isSelected && !keepsFocus && document.activeElement === box.current) box.current?.blur();
  }, [isSelected, keepsFocus]);
  const acts = sectionActs(desk);
  if (isSelected && typing !== null)
    return (
      <LaneField
        label="Name of the section, and of those that repeat it"
        placeholder="Verse, Turnaround"
        left={left}
        width={Math.max(width, 140)}
        text={typing}
        write={(text) => acts.rename(text, false)}
      />
    );
  const line = sectionLine(desk, section);
  return (
    <button
      ref={box}
      type="button"
      className={`${styles.section} ${isPencil ? styles.pencil : styles.ink} ${isSelected ? styles.selected : ""} ${isHeld ? styles.heldByOther : ""}`}
      style={
        { left, width, "--left": `${left}px`, "--room": `${Math.max(0, width - 40)}px` } as CSSProperties
      }
      aria-pressed={isSelected}
      title={line}
      tabIndex={isSelected ? 0 : -1}
      data-section={`${section.id}.${section.stretch}`}
      onClick={() => select({ kind: "section", id: section.id, stretch: section.stretch })}
      onDoubleClick={() => acts.type("")}
    >
      <span className="unseen">{line}</span>
      <span className={styles.inView} aria-hidden="true">
        {sectionName(section)}
        {isPencil && section.confidence !== null && width >= SURE_FROM_PX ? (
          <em className={styles.sure}>{sureText(section.confidence)}</em>
        ) : null}
      </span>
    </button>
  );
}
