import type { Cents, Midi, Seconds } from "@/lib/units/quantities";
import { nearerTuning } from "./nearerTuning";
import type { Moment } from "./onePitch";

/** A note that was held long enough to be meant. */
export interface SettledNote {
  midi: Midi;
  /** How far it stands from its name, in the tuning that it stands nearer to. */
  offCents: Cents;
}

/** The last moments in which one note sounded without a break, and what has settled out of them. */
export interface Settling {
  run: readonly { timeSec: Seconds; midi: Midi }[];
  note: SettledNote | null;
}

export const NOTHING_SETTLED: Settling = { run: [], note: null };

/** A note is meant once it has been held for this long, within the spread below: a slide on its way is not. */
const HELD_SEC: Seconds = 0.12;
/** Hand vibrato on a steel goes about 20 cents to either side (measure of ear, no source); a half step is no vibrato. */
const SPREAD_SEMITONES = 0.7;

/**
 * Waits until a pitch holds still, and names it. What has settled stays until another note does.
 * @param tuningCents of the record
 */
export function settle(now: Settling, moment: Moment, timeSec: Seconds, tuningCents: Cents): Settling {
  if (moment.kind !== "note") return { ...now, run: [] };
  const { midi } = moment;
  const recent = now.run.filter((each) => timeSec - each.timeSec <= 2 * HELD_SEC);
  const apart = recent.findLastIndex((each) => Math.abs(each.midi - midi) > SPREAD_SEMITONES);
  const run = [...recent.slice(apart + 1), { timeSec, midi }];
  if (timeSec - run[0]!.timeSec < HELD_SEC) return { ...now, run };
  return { run, note: named(median(run.map((each) => each.midi)), tuningCents) };
}

function named(midi: Midi, tuningCents: Cents): SettledNote {
  const { midis, offCents } = nearerTuning([midi], tuningCents);
  return { midi: midis[0]!, offCents: offCents[0]! };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[Math.floor((sorted.length - 1) / 2)]! + sorted[Math.ceil((sorted.length - 1) / 2)]!) / 2;
}
