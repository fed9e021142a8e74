import type { PartEventFields } from "@/lib/document/commands/part";
import type { CopiedEvent } from "@/lib/document/commands/partMany";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import {
  isArticulation,
  isChangeIds,
  isFiniteNumber,
  isFret,
  isObject,
  isStrings,
  isTechniques,
} from "@/lib/document/records/guards";
import { readChartOrNull } from "@/lib/document/records/partHead";
import type { Mark } from "@/lib/document/records/Stamp";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { type BeatGrid, beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import type { Beats, Seconds } from "@/lib/units/quantities";

const FORM = "liftbook part";
const VERSION = 1;
/** More at once is no lick: a whole part of this length is copied song by song. */
const MOST_EVENTS = 10_000;

/** From the beginning of the first event. */
interface ClippedTimes {
  startSec: Seconds;
  endSec: Seconds;
  /** Null where the song that it was copied from had no beats. */
  beats: { start: Beats; end: Beats } | null;
}

/** An event as it is carried: how it is played, in which mark it stood, and when, counted from the first. */
export type ClippedEvent = Omit<PartEventFields, "startSec" | "endSec"> & ClippedTimes & { mark: Mark };

/** Events of a part on their way to another place or another song, with the chart that says what their letters mean. */
export interface PartClip {
  form: typeof FORM;
  version: typeof VERSION;
  chart: Chart;
  /** At least one, in order of time. */
  events: ClippedEvent[];
}

/** @param events at least one, in order of time */
export function clipOf(events: readonly ShownPart[], copedent: Copedent, grid: BeatGrid | null): PartClip {
  const firstSec = events[0]?.startSec ?? 0;
  const beatOf = (timeSec: Seconds) =>
    grid ? secondsToBeat(grid, timeSec) - secondsToBeat(grid, firstSec) : 0;
  return {
    form: FORM,
    version: VERSION,
    chart: writeChart(copedent),
    events: events.map((event) => ({
      startSec: event.startSec - firstSec,
      endSec: event.endSec - firstSec,
      beats: grid ? { start: beatOf(event.startSec), end: beatOf(event.endSec) } : null,
      strings: event.strings,
      fret: event.fret,
      frets: event.frets ?? null,
      changes: event.changes,
      articulation: event.articulation,
      techniques: event.techniques ?? [],
      mark: event.mark,
    })),
  };
}

/** A clip out of whatever the clipboard holds, with the guitar that it was written for; null where it is none. */
export function readClip(text: string): { clip: PartClip; copedent: Copedent } | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isObject(value) || value.form !== FORM || value.version !== VERSION) return null;
  const copedent = readChartOrNull(value.chart, "clip");
  const { events } = value;
  if (copedent === null || !Array.isArray(events) || events.length === 0 || events.length > MOST_EVENTS)
    return null;
  return events.every(isClipped)
    ? { clip: { form: FORM, version: VERSION, chart: writeChart(copedent), events }, copedent }
    : null;
}

function isClipped(value: unknown): value is ClippedEvent {
  if (!isObject(value)) return false;
  const { startSec, endSec, beats, strings, fret, frets, changes, articulation, techniques, mark } = value;
  return (
    isFiniteNumber(startSec) &&
    isFiniteNumber(endSec) &&
    startSec >= 0 &&
    endSec > startSec &&
    (beats === null || (isObject(beats) && isFiniteNumber(beats.start) && isFiniteNumber(beats.end))) &&
    isStrings(strings) &&
    isFret(fret) &&
    (frets === null || (Array.isArray(frets) && frets.length === strings.length && frets.every(isFret))) &&
    isChangeIds(changes) &&
    isArticulation(articulation) &&
    isTechniques(techniques) &&
    (mark === "ink" || mark === "pencil")
  );
}

/**
 * Where the events of a clip come to be: the first at a time, the others as many beats on as they were, or as many seconds
 * where either song has no beats.
 * @returns those that begin within the record, none longer than it
 */
export function placedInTime(
  { events }: PartClip,
  atSec: Seconds,
  grid: BeatGrid | null,
  durationSec: Seconds,
): CopiedEvent[] {
  const atBeat = grid ? secondsToBeat(grid, atSec) : 0;
  return events.flatMap(({ mark, beats, ...event }) => {
    const timeOf = (sec: Seconds, beat: Beats | undefined) =>
      grid && beat !== undefined ? beatToSeconds(grid, atBeat + beat) : atSec + sec;
    const startSec = timeOf(event.startSec, beats?.start);
    const endSec = Math.min(durationSec, timeOf(event.endSec, beats?.end));
    return endSec - startSec < SHORTEST_PASTED_SEC ? [] : [{ mark, event: { ...event, startSec, endSec } }];
  });
}

const SHORTEST_PASTED_SEC: Seconds = 0.03;
