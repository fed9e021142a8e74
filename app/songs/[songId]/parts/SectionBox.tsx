"use client";

import { sureText } from "@/lib/client/format/format";
import { textScale } from "@/lib/client/page/textScale";
import { sectionName } from "@/lib/client/song/sectionWords";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";
import { LaneField } from "./LaneField";
import { sectionActs } from "./sectionActs";
import { sectionLine } from "./sectionLine";
import styles from "./sections.module.css";
import { selectedSection } from "./selection";
import { useKeptName } from "./useKeptName";
import { useStretchBox } from "./useStretchBox";

/** Narrower than this, a box says nothing but its name. */
const SURE_FROM_PX = 120;
/** What its name takes of its box. */
const NAME_PX = 40;

/** One section in its lane. A click selects the passage, a second one opens its name. */
export function SectionBox({ section }: { section: ShownSection }) {
  const desk = useDesk();
  const { opened, selection, select, typing } = desk;
  const selected = selectedSection(opened.song, selection);
  const { box, isSelected, isHeld, left, width } = useStretchBox("section", section, selected);
  const name = useKeptName(desk.axis, left, Math.max(0, width - NAME_PX));
  const isPencil = section.mark === "pencil";
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
      style={{ left, width }}
      aria-pressed={isSelected}
      title={line}
      tabIndex={isSelected ? 0 : -1}
      data-section={`${section.id}.${section.stretch}`}
      onClick={() => select({ kind: "section", id: section.id, stretch: section.stretch })}
      onDoubleClick={() => acts.type("")}
    >
      <span className="unseen">{line}</span>
      <span ref={name} className={styles.inView} aria-hidden="true">
        {sectionName(section)}
        {isPencil && section.confidence !== null && width >= SURE_FROM_PX * textScale() ? (
          <em className={styles.sure}>{sureText(section.confidence)}</em>
        ) : null}
      </span>
    </button>
  );
}
