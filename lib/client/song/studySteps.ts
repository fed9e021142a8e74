import type { ShownStudy, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { HomeRecord } from "@/lib/document/records/records";
import type { Seconds } from "@/lib/units/quantities";
import type { CountedHere } from "../practice/PracticeKeeper";
import { beginningWithin } from "./beginningWithin";
import { SAME_MOMENT_SEC } from "./sameMoment";

/** How far one step of the work is. */
export type StepState = "open" | "begun" | "done";

/** Times through by which one has listened: common practice of "hear it till you can hum it", no source for the number. */
export const LISTENED_FROM = 5;
/** Clean takes at full speed by which one has it by heart: common practice, no source for the number. */
export const BY_HEART_FROM = 3;
/** A note that was heard is placed where an event begins as near to it as two hearings of one note begin (rule D26). */
const PLACED_WITHIN_SEC: Seconds = 0.05;

/** What was really done with a passage, counted for each of its six steps; none is ever ticked. */
export interface StudySteps {
  listen: {
    state: StepState;
    /** Of the reader, and of all others together. */
    ownTimes: number;
    othersTimes: number;
    /** Of the reader, at full speed. */
    fullSpeedTimes: number;
  };
  /** Homes that hold somewhere in it, in order. */
  home: { state: StepState; homes: HomeRecord[] };
  /** Changes that are seen in it, and those still in pencil, each by its id. */
  changes: { state: StepState; count: number; inked: number; pencilledIds: string[] };
  /** Notes of the steel that were heard in it, and events of the part. */
  notes: {
    state: StepState;
    heard: number;
    inked: number;
    /** Of those that were heard, how many an event of the part begins with. */
    placed: number;
    events: number;
    pencilledIds: string[];
  };
  /** Strokes of the part within it, and those that the latest check found to fit and that still say the same. */
  check: { state: StepState; strokes: number; fitting: number; isChecked: boolean };
  byHeart: {
    state: StepState;
    /** Clean takes of the reader at any speed, and those at full speed. */
    ownTimes: number;
    fullSpeedTimes: number;
    /** Of all others together. */
    othersTimes: number;
  };
}

/**
 * Counts the steps of a passage.
 * @param strokes the part's strokes within it as a check would ask for them, each with a sign of what it says now
 * @param counted the reader's times through that are not in the song yet
 */
export function studySteps(
  song: Pick<SongSnapshot, "homes" | "changes" | "notes" | "part">,
  study: ShownStudy,
  readerId: string,
  strokes: readonly { eventId: string; sign: string }[],
  counted: CountedHere = { times: 0, fullSpeedTimes: 0 },
): StudySteps {
  return {
    listen: listened(study, readerId, counted),
    home: found(song, study),
    changes: changed(song, study),
    notes: noted(song, study),
    check: checked(study, strokes),
    byHeart: playedByHeart(study, readerId),
  };
}

function listened({ through }: ShownStudy, readerId: string, counted: CountedHere): StudySteps["listen"] {
  const own = through.find(({ by }) => by === readerId);
  const ownTimes = (own?.times ?? 0) + counted.times;
  const othersTimes = timesOfOthers(through, readerId);
  const state = ownTimes === 0 ? "open" : ownTimes < LISTENED_FROM ? "begun" : "done";
  return {
    state,
    ownTimes,
    othersTimes,
    fullSpeedTimes: (own?.fullSpeedTimes ?? 0) + counted.fullSpeedTimes,
  };
}

function found({ homes }: Pick<SongSnapshot, "homes">, study: ShownStudy): StudySteps["home"] {
  const before = homes.findLast(({ startSec }) => startSec <= study.startSec + SAME_MOMENT_SEC) ?? homes[0];
  const after = homes.filter(
    (home) =>
      home !== before &&
      home.startSec > study.startSec + SAME_MOMENT_SEC &&
      home.startSec < study.endSec - SAME_MOMENT_SEC,
  );
  const here = before ? [before, ...after] : after;
  return { state: stateOf(here.filter(({ mark }) => mark === "ink").length, here.length, true), homes: here };
}

function changed({ changes }: Pick<SongSnapshot, "changes">, study: ShownStudy): StudySteps["changes"] {
  const here = changes.filter(
    ({ startSec, endSec }) =>
      endSec > study.startSec + SAME_MOMENT_SEC && startSec < study.endSec - SAME_MOMENT_SEC,
  );
  const pencilled = here.filter(({ mark }) => mark === "pencil");
  const inked = here.length - pencilled.length;
  const pencilledIds = [...new Set(pencilled.map(({ id }) => id))];
  return { state: stateOf(inked, here.length), count: here.length, inked, pencilledIds };
}

function noted(song: Pick<SongSnapshot, "notes" | "part">, study: ShownStudy): StudySteps["notes"] {
  const heard = beginningWithin(song.notes, study);
  const events = beginningWithin(song.part, study);
  const pencilled = heard.filter(({ mark }) => mark === "pencil");
  const begins = (note: { startSec: Seconds }) =>
    events.some(({ startSec }) => Math.abs(startSec - note.startSec) <= PLACED_WITHIN_SEC);
  const placed = heard.filter(begins).length;
  const inkedEvents = events.filter(({ mark }) => mark === "ink").length;
  const isDone =
    events.length > 0 && inkedEvents === events.length && placed === heard.length && pencilled.length === 0;
  const inked = heard.length - pencilled.length;
  return {
    state: isDone ? "done" : inked + events.length > 0 ? "begun" : "open",
    heard: heard.length,
    inked,
    placed,
    events: events.length,
    pencilledIds: pencilled.map(({ id }) => id),
  };
}

function checked(
  { check }: ShownStudy,
  strokes: readonly { eventId: string; sign: string }[],
): StudySteps["check"] {
  const fitting = strokes.filter(({ eventId, sign }) => check?.fits[eventId] === sign).length;
  const state = strokes.length > 0 ? stateOf(fitting, strokes.length) : "open";
  return { state, strokes: strokes.length, fitting, isChecked: check !== null };
}

function playedByHeart({ clean }: ShownStudy, readerId: string): StudySteps["byHeart"] {
  const own = clean.find(({ by }) => by === readerId);
  const [ownTimes, fullSpeedTimes] = [own?.times ?? 0, own?.fullSpeedTimes ?? 0];
  return {
    state: fullSpeedTimes >= BY_HEART_FROM ? "done" : ownTimes > 0 ? "begun" : "open",
    ownTimes,
    fullSpeedTimes,
    othersTimes: timesOfOthers(clean, readerId),
  };
}

function timesOfOthers(counts: ShownStudy["through"], readerId: string): number {
  return counts.reduce((sum, { by, times }) => (by === readerId ? sum : sum + times), 0);
}

/** @param isBegunByPencil whether what stands in pencil is a beginning */
function stateOf(doneCount: number, count: number, isBegunByPencil = false): StepState {
  if (count === 0 || (doneCount === 0 && !isBegunByPencil)) return "open";
  return doneCount === count ? "done" : "begun";
}
