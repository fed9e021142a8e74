"use client";

import { useEffect, useRef } from "react";
import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { useCheckState } from "@/lib/client/fit/useFit";
import { verdictWords } from "@/lib/fit/fitWords";
import { capital } from "./changeWords";
import { CHECK_SIGNS } from "./checkSigns";
import { useDesk } from "./DeskContext";
import { FitGauge } from "./FitGauge";
import styles from "./fit.module.css";
import { fitActs, type ShownMark } from "./fitActs";
import { namingAt } from "./fitNaming";
import { ListPanel } from "./ListPanel";
import { selectedEvent } from "./selection";

/**
 * The check of the part: how far it is, and each event that does not read as it is written, in words. Where it is covered
 * by a sheet, as on a phone, it makes room for that.
 */
export function CheckPanel({ isCovered }: { isCovered: boolean }) {
  const desk = useDesk();
  const { opened, selection, fit, openCheck } = desk;
  const acts = fitActs(desk);
  const { underWay, marks, refusedCount } = useCheckState(fit);
  const shown = acts.shownMarks(marks);
  const wanting = shown.filter(({ verdict }) => verdict.kind !== "fits");
  const chosen = selectedEvent(opened.song, selection)?.id ?? null;
  const { isWhole, asked } = acts.toCheck();

  function says(): string {
    if (underWay) {
      if (underWay.copying !== null) return "Making a copy of the record to listen to.";
      return `${underWay.done} of ${underWay.of} events held against the record.`;
    }
    if (shown.length === 0) return "Not checked yet.";
    const fits = shown.length - wanting.length;
    const refused = refusedCount > 0 ? ` ${refusedCount} could not be held against it.` : "";
    return `${fits} of ${shown.length} events show no fault.${refused}`;
  }

  return (
    <ListPanel
      label="Check of the part"
      title="Check"
      says={says()}
      className={`${styles.panel} ${isCovered ? styles.covered : ""}`}
      head={
        underWay ? (
          <Bar label="Check of the part" fraction={underWay.copying ?? underWay.done / underWay.of} />
        ) : null
      }
      acts={
        <button
          type="button"
          className={controls.button}
          disabled={!underWay && asked.length === 0}
          onClick={() => (underWay ? fit?.check.cancel() : void acts.check())}
        >
          {underWay ? "Cancel" : isWhole ? "Check the part" : "Check the passage"}
        </button>
      }
      onClose={() => openCheck(false)}
      onEscape={() => {
        if (!fit?.check.cancel()) openCheck(false);
      }}
    >
      {wanting.length > 0 ? (
        <ol className={styles.marks}>
          {wanting.map((mark) => (
            <Mark
              key={mark.eventId}
              mark={mark}
              isChosen={mark.eventId === chosen}
              onChoose={() => acts.choose(mark)}
            />
          ))}
        </ol>
      ) : (
        <p className={styles.none}>
          {shown.length > 0
            ? "Nothing is marked."
            : "Every event is held against the record at its place; what reads low, high, in the wrong octave, with a note missing or one too many is listed here and marked in the part."}
        </p>
      )}
    </ListPanel>
  );
}

function Mark({ mark, isChosen, onChoose }: { mark: ShownMark; isChosen: boolean; onChoose: () => void }) {
  const { opened, grid } = useDesk();
  const { verdict, answer, startSec, isStale } = mark;
  const row = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (isChosen) row.current?.scrollIntoView({ block: "nearest" });
  }, [isChosen]);
  const words = capital(verdictWords(verdict, answer.notesMidi, namingAt(opened.song, startSec)));
  return (
    <li>
      <button
        ref={row}
        type="button"
        data-mark={verdict.kind}
        className={isStale ? styles.stale : undefined}
        aria-current={isChosen}
        onClick={onChoose}
      >
        <span className={styles.sign} aria-hidden="true">
          {CHECK_SIGNS[verdict.kind]}
        </span>
        <span className={styles.place}>{placeWords(grid, startSec) || `${startSec.toFixed(2)} s`}</span>
        <FitGauge fit={answer.fit} />
        <span>
          {words}
          {isStale ? ". Changed since: check it again." : ""}
        </span>
      </button>
    </li>
  );
}
