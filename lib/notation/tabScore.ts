import type { Copedent } from "@/lib/instrument/Copedent";
import type { Beats, Seconds } from "@/lib/units/quantities";
import { type BeatGrid, beatToInBar, beatToSeconds, gridBars, secondsToBeat } from "./barGrid";
import type { PartEvent } from "./PartEvent";
import { soundedEnd } from "./soundedEnd";
import { writeCell } from "./tabCell";
import { cutIntoSlots, nearestSlot, type SlottedBeat } from "./tabSlots";

/** A sign that stands at a slot of a row. */
export interface TabSign {
  slot: number;
  text: string;
  /** Whether it may touch the sign before it. */
  joins: boolean;
}

/** A stretch of slots; `toSlot` is the first slot after it. */
export interface TabStretch {
  fromSlot: number;
  toSlot: number;
  text: string;
}

/** One string line of the tab. */
export interface TabRow {
  stringNumber: number;
  signs: TabSign[];
  /** Where the string sounds, with the place that sounds there. */
  rings: TabStretch[];
}

/** What one bar line parts from the next: a bar, or a second where there is no grid. */
export interface TabMeasure {
  /** Number of the bar; null where there is no grid. */
  barNumber: number | null;
  beats: SlottedBeat[];
}

/** The part laid on slots, before anything is given columns. */
export interface TabScore {
  measures: TabMeasure[];
  rows: TabRow[];
  changes: TabStretch[];
}

/** Times this near to the end of a bar do not open the next one. */
const EDGE_BEATS: Beats = 1 / 8;

/**
 * Lays part events and changes on the slots of a grid, or of plain seconds where there is none.
 * @param part at least one event, each on strings of the copedent
 * @param changes their texts as they are to be shown
 */
export function scoreTab(
  copedent: Copedent,
  grid: BeatGrid | null,
  part: readonly PartEvent[],
  changes: readonly { startSec: Seconds; endSec: Seconds; text: string }[],
): TabScore {
  const events = [...part].sort((a, b) => a.startSec - b.startSec || a.endSec - b.endSec);
  const time = grid !== null && grid.beatsSec.length > 0 ? gridTime(grid, events) : secondsTime(events);
  const rowEvents = copedent.strings.map((string) =>
    events.filter((event) => event.strings.includes(string.number)),
  );
  const { beats, slots } = cutIntoSlots(
    time.measures.flatMap((measure) => measure.labels),
    rowEvents.map((list) => list.map((event) => time.toBeat(event.startSec))),
  );
  const rows = copedent.strings.map((string, row): TabRow => {
    const list = rowEvents[row] ?? [];
    const cells = list.map((event, index) =>
      writeCell(event, string.number, list[index - 1] ?? null, copedent),
    );
    const signs = cells.map(({ text, joins }, index) => ({ slot: slots[row]?.[index] ?? 0, text, joins }));
    const rings = signs.map((sign, index) => {
      const event = list[index];
      const endSlot = nearestSlot(beats, time.toBeat(event ? soundedEnd(event) : 0));
      const nextSlot = signs[index + 1]?.slot ?? endSlot;
      const text = cells[index]?.held ?? "";
      return { fromSlot: sign.slot, toSlot: Math.max(sign.slot, Math.min(endSlot, nextSlot)), text };
    });
    return { stringNumber: string.number, signs, rings };
  });

  let nextBeat = 0;
  const measures = time.measures.map(({ barNumber, labels }): TabMeasure => {
    nextBeat += labels.length;
    return { barNumber, beats: beats.slice(nextBeat - labels.length, nextBeat) };
  });
  const stretches = changes.map(({ startSec, endSec, text }) => ({
    fromSlot: time.toBeat(startSec) < 0 ? -1 : nearestSlot(beats, time.toBeat(startSec)),
    toSlot: nearestSlot(beats, time.toBeat(endSec)),
    text,
  }));
  return { measures, rows, changes: settleStretches(stretches) };
}

interface TabTime {
  measures: { barNumber: number | null; labels: string[] }[];
  /** Beats from the first beat of the first measure. */
  toBeat: (timeSec: Seconds) => Beats;
}

function gridTime(grid: BeatGrid, events: readonly PartEvent[]): TabTime {
  const starts = events.map((event) => secondsToBeat(grid, event.startSec));
  const ends = events.map((event) => secondsToBeat(grid, event.endSec));
  const fromBeat = Math.min(...starts) + EDGE_BEATS;
  const toBeat = Math.max(Math.max(...starts) + EDGE_BEATS, Math.max(...ends) - EDGE_BEATS);
  const bars = gridBars(grid, beatToSeconds(grid, fromBeat), beatToSeconds(grid, toBeat));
  const first = bars[0]?.startBeat ?? 0;
  const measures = bars.map((bar) => ({
    barNumber: bar.number,
    labels: Array.from({ length: bar.endBeat - bar.startBeat }, (_, index) =>
      String(beatToInBar(grid, bar.startBeat + index)),
    ),
  }));
  return { measures, toBeat: (timeSec) => secondsToBeat(grid, timeSec) - first };
}

function secondsTime(events: readonly PartEvent[]): TabTime {
  const from = Math.floor(Math.min(...events.map((event) => event.startSec)) + EDGE_BEATS);
  const lastStart = Math.max(...events.map((event) => event.startSec)) + EDGE_BEATS;
  const to = Math.max(Math.floor(lastStart) + 1, Math.ceil(Math.max(...events.map((event) => event.endSec))));
  const measures = Array.from({ length: to - from }, (_, index) => ({
    barNumber: null,
    labels: [String(from + index)],
  }));
  return { measures, toBeat: (timeSec) => timeSec - from };
}

/** Leaves out what is too short for a slot and what says again what already holds. */
function settleStretches(stretches: readonly TabStretch[]): TabStretch[] {
  const settled: TabStretch[] = [];
  for (const stretch of [...stretches].sort((a, b) => a.fromSlot - b.fromSlot)) {
    const before = settled.at(-1);
    if (stretch.toSlot <= stretch.fromSlot || stretch.toSlot <= 0) continue;
    if (before !== undefined && before.text === stretch.text && before.toSlot >= stretch.fromSlot) {
      before.toSlot = Math.max(before.toSlot, stretch.toSlot);
    } else {
      settled.push({ ...stretch });
    }
  }
  return settled;
}
