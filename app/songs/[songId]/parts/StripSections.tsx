"use client";

import { openCount } from "@/lib/client/questions/openQuestions";
import { sectionName } from "@/lib/client/song/sectionWords";
import { useDesk } from "./DeskContext";
import { OpenSign } from "./OpenSign";
import { sectionLine } from "./sectionLine";
import { selectedSection } from "./selection";
import styles from "./strip.module.css";

/** The sections over the whole song; a click on a name takes that passage in hand. */
export function StripSections({ share }: { share: (sec: number) => string }) {
  const desk = useDesk();
  const { opened, selection, select } = desk;
  const { sections, questions } = opened.song;
  const selected = selectedSection(opened.song, selection);
  if (sections.length === 0) return null;
  return (
    <ol aria-label="Sections of the song">
      {sections.map((section) => {
        const isSelected = selected === section;
        const line = sectionLine(desk, section);
        return (
          <li
            key={`${section.id}.${section.stretch}`}
            className={`${styles.section} ${section.mark === "pencil" ? styles.pencil : ""} ${isSelected ? styles.selected : ""}`}
            style={{ left: share(section.startSec), width: share(section.endSec - section.startSec) }}
          >
            <button
              type="button"
              title={line}
              tabIndex={-1}
              aria-pressed={isSelected}
              data-section={`${section.id}.${section.stretch}`}
              onClick={() => select({ kind: "section", id: section.id, stretch: section.stretch })}
            >
              <span className="unseen">{line}</span>
              <OpenSign count={openCount(questions, section)} />
              <span aria-hidden="true">{sectionName(section)}</span>
            </button>
          </li>
        );
      })}
    </ol>
  );
}
