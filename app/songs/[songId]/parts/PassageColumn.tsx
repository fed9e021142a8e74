"use client";

import { placeWords } from "@/lib/client/axis/songGrid";
import { clockText } from "@/lib/client/format/format";
import { sectionName } from "@/lib/client/song/sectionWords";
import { capital } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HearAgain } from "./HearAgain";
import { Steps } from "./Steps";
import { selectedSection, selectedSpan } from "./selection";

/** Left: the passage at hand, and how far each step of the work is. */
export function PassageColumn() {
  const { opened, selection, grid, page } = useDesk();
  const span = selectedSpan(opened.song, selection, grid);
  const section = selectedSection(opened.song, selection);
  return (
    <section className={styles.column} aria-label="Passage">
      <h2>{heading()}</h2>
      <p className={styles.times}>
        {span
          ? `${clockText(span.startSec, true)} to ${clockText(span.endSec, true)}`
          : `${clockText(page.durationSec)}${grid ? ` · ${grid.bars.at(-1)?.number ?? 0} bars` : ""}`}
      </p>
      <Steps />
      <HearAgain />
    </section>
  );

  function heading(): string {
    if (section) return sectionName(section);
    if (selection?.kind === "home") return "Home";
    if (!span) return "Whole song";
    return capital(placeWords(grid, span.startSec)) || "Selection";
  }
}
