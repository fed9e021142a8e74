"use client";

import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { clockText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { isLoopOf } from "@/lib/client/practice/PracticeKeeper";
import { barsWords, sectionName } from "@/lib/client/song/sectionWords";
import { studyName } from "@/lib/client/song/studyWords";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { CoverShelf } from "./CoverShelf";
import { capital } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HearAgain } from "./HearAgain";
import { Steps } from "./Steps";
import { StudyShelf } from "./StudyShelf";
import { StudySteps } from "./StudySteps";
import { selectedSection, selectedSpan } from "./selection";
import studyStyles from "./studies.module.css";
import { studyActs } from "./studyActs";
import { loopAtHand } from "./transportActs";

/** Left: the passage at hand, and how far each step of the work is; where none is, the whole song. */
export function PassageColumn() {
  const { opened, atHand, selection, grid, page } = useDesk();
  const span = selectedSpan(opened.song, selection, grid);
  const section = selectedSection(opened.song, selection);
  const { study } = atHand;
  return (
    <section className={styles.column} aria-label="Passage">
      {study ? (
        <>
          <StudyHead study={study} />
          <StudySteps study={study} />
          <CoverShelf target={study.id} />
          <StudyShelf />
        </>
      ) : (
        <>
          <h2>{heading()}</h2>
          <p className={styles.times}>
            {span
              ? `${clockText(span.startSec, true)} to ${clockText(span.endSec, true)}`
              : `${clockText(page.durationSec)}${grid ? ` · ${grid.bars.at(-1)?.number ?? 0} bars` : ""}`}
          </p>
          <StudyShelf />
          <Steps />
          <CoverShelf target={WHOLE_SONG} />
        </>
      )}
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

/** Which passage is at hand, where it lies, its loop, and the way back to the whole song. */
function StudyHead({ study }: { study: ShownStudy }) {
  const desk = useDesk();
  const { opened, player, grid } = desk;
  const { loop } = usePlayerState(player);
  const isLooped = isLoopOf(loop, study);
  const acts = studyActs(desk);
  return (
    <>
      <p className={studyStyles.which}>
        <span>
          Passage {study.number} of {opened.song.studies.length}
        </span>
        <button type="button" className={controls.link} onClick={acts.putAway}>
          Whole song
        </button>
      </p>
      <h2>{studyName(study, grid)}</h2>
      <p className={styles.times}>
        {clockText(study.startSec, true)} to {clockText(study.endSec, true)}
        {study.name && grid ? ` · ${barsWords(study, grid).toLowerCase()}` : ""}
      </p>
      <div className={studyStyles.headActs}>
        <button
          type="button"
          className={controls.button}
          aria-pressed={isLooped}
          onClick={() => loopAtHand(desk)}
        >
          {isLooped ? "Stop looping" : "Loop it"}
        </button>
        <button type="button" className={controls.button} onClick={() => acts.choose(study)}>
          Name, ends
        </button>
      </div>
    </>
  );
}
