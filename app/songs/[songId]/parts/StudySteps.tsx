"use client";

import { type ReactNode, useMemo } from "react";
import controls from "@/app/parts/controls.module.css";
import { askedStrokes } from "@/lib/client/fit/askedEvents";
import { shortSign } from "@/lib/client/fit/shortSign";
import { useCheckState } from "@/lib/client/fit/useFit";
import { printed } from "@/lib/client/format/format";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import {
  BY_HEART_FROM,
  type StudySteps as StudyStepsCounted,
  studySteps,
} from "@/lib/client/song/studySteps";
import { inkChanges } from "@/lib/document/commands/changes";
import { inkHome } from "@/lib/document/commands/homes";
import { inkNotes } from "@/lib/document/commands/notes";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import { keyToWords } from "@/lib/theory/key";
import { CoverNote } from "./CoverNote";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { fitActs } from "./fitActs";
import { guessActs } from "./guessActs";
import { Step } from "./Step";

/** The six steps of the passage at hand, in the order a teacher gives them: what is done, and what is next. */
export function StudySteps({ study }: { study: ShownStudy }) {
  const desk = useDesk();
  const { opened, atHand, copedent, page, mayWrite, nameOf, fit } = desk;
  const { song } = opened;
  const { run } = opened.acts;
  const { underWay } = useCheckState(fit);
  const strokes = useMemo(
    () =>
      askedStrokes(beginningWithin(song.part, study), song.part, copedent).map((event) => ({
        eventId: event.eventId,
        sign: shortSign(event),
      })),
    [song.part, study, copedent],
  );
  const { counted } = atHand;
  const { listen, home, changes, notes, check, byHeart } = useMemo(
    () => studySteps(song, study, page.me.id, strokes, counted),
    [song, study, page.me.id, strokes, counted],
  );
  const isCovered = (lane: GuessLane) => guessActs(desk).isCovered(lane, study);
  const { ownTimes, fullSpeedTimes } = listen;

  return (
    <ol className={styles.steps}>
      <Step name="Listen" state={listen.state}>
        {ownTimes === 0
          ? "Loop it, and hum it before you touch the bar."
          : `${timesWords(ownTimes)} through by you`}
        {ownTimes > 0 && fullSpeedTimes > 0 ? `, ${fullSpeedTimes} at full speed` : ""}
        {ownTimes > 0 ? ". " : " "}
        {othersWords(study.through, page.me.id, nameOf)}
      </Step>
      <Step name="Find home" state={home.state}>
        <CoverNote lane="home" within={study} />
        {home.homes.length === 0 || isCovered("home")
          ? isCovered("home")
            ? ""
            : "Not known yet. H takes it in hand."
          : home.homes
              .map(
                (each) =>
                  `${printed(keyToWords(each))}, ${each.mark === "ink" ? `inked by ${nameOf(each.editedBy)}` : "in pencil"}.`,
              )
              .join(" ")}
        {mayWrite && !isCovered("home")
          ? home.homes
              .filter(({ mark }) => mark === "pencil")
              .map((each) => (
                <Act key={each.id} onClick={() => run((ctx) => inkHome(ctx, each.id))}>
                  Ink {printed(keyToWords(each))}
                </Act>
              ))
          : null}
      </Step>
      <Step name="Changes" state={changes.state}>
        <CoverNote lane="changes" within={study} />
        {changes.count === 0
          ? isCovered("changes")
            ? ""
            : "None here yet."
          : `${changes.inked} of ${changes.count} in ink.`}
        {mayWrite && changes.pencilledIds.length > 0 ? (
          <Act onClick={() => run((ctx) => inkChanges(ctx, changes.pencilledIds))}>
            Ink the other {changes.count - changes.inked}
          </Act>
        ) : null}
      </Step>
      <Step name="Notes" state={notes.state}>
        <CoverNote lane="heard" within={study} />
        {notes.heard === 0
          ? isCovered("heard")
            ? ""
            : "None of the steel's heard here; Q has them heard."
          : `${notes.inked} of ${notes.heard} heard in ink, ${notes.placed} placed.`}
        {notes.events > 0 ? ` ${notes.events} ${notes.events === 1 ? "event" : "events"} in the part.` : ""}
        {mayWrite && notes.pencilledIds.length > 0 ? (
          <Act onClick={() => run((ctx) => inkNotes(ctx, notes.pencilledIds))}>
            Ink the {notes.pencilledIds.length} heard
          </Act>
        ) : null}
      </Step>
      <Step name="Check" state={check.state}>
        <CoverNote lane="places" within={study} />
        {check.strokes === 0 && isCovered("places") ? "" : checkWords(check)}
        {check.strokes > 0 ? (
          <Act isOff={underWay !== null} onClick={() => void fitActs(desk).check(study)}>
            {underWay ? `Checking, ${underWay.done} of ${underWay.of}` : "Check it"}
          </Act>
        ) : null}
      </Step>
      <Step name="By heart" state={byHeart.state}>
        {check.strokes === 0 && byHeart.ownTimes === 0
          ? isCovered("places")
            ? "Guess where it lies first; takes are held against the part."
            : "Takes are held against the part: write it first."
          : byHeartWords(byHeart)}{" "}
        {othersWords(study.clean, page.me.id, nameOf)}
      </Step>
    </ol>
  );
}

function Act({
  isOff = false,
  onClick,
  children,
}: {
  isOff?: boolean;
  onClick: () => void;
  children: ReactNode;
}) {
  return (
    <div className={styles.stepActs}>
      <button type="button" className={controls.button} disabled={isOff} onClick={onClick}>
        {children}
      </button>
    </div>
  );
}

function timesWords(times: number): string {
  return times === 1 ? "Once" : `${times} times`;
}

/** How often everyone else did it. */
function othersWords(
  counts: ShownStudy["through"],
  readerId: string,
  nameOf: (id: string) => string,
): string {
  return counts
    .filter(({ by }) => by !== readerId)
    .map(({ by, times }) => `${timesWords(times)} by ${nameOf(by)}.`)
    .join(" ");
}

function byHeartWords({ ownTimes, fullSpeedTimes }: StudyStepsCounted["byHeart"]): string {
  if (ownTimes === 0) return "Record a take (F10): it counts where every stroke is found.";
  if (fullSpeedTimes >= BY_HEART_FROM) return `${fullSpeedTimes} clean takes at full speed.`;
  const slow = fullSpeedTimes === 0 ? `${takesWords(ownTimes)} slower. ` : "";
  return `${slow}${fullSpeedTimes} of ${BY_HEART_FROM} clean takes at full speed.`;
}

function takesWords(times: number): string {
  return times === 1 ? "One clean take" : `${times} clean takes`;
}

function checkWords({
  strokes,
  fitting,
  isChecked,
}: {
  strokes: number;
  fitting: number;
  isChecked: boolean;
}): string {
  if (strokes === 0) return "Nothing of the part is written here yet.";
  if (!isChecked) return `${strokes === 1 ? "One stroke" : `${strokes} strokes`} to hold against the record.`;
  return `${fitting} of ${strokes} found to fit as they stand.`;
}
