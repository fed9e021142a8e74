import { midiToName } from "@/lib/theory/spelling";
import type { Semitones } from "@/lib/units/quantities";
import type { Copedent, Pulls } from "./Copedent";
import { type Stopped, stringOffset } from "./effectivePitch";
import { fretsOf } from "./frets";
import { holdableSets } from "./holdable";
import { matchStrings } from "./matchStrings";
import { pullToWords } from "./pullWords";
import { engagedStages, type Stage } from "./stages";

/** The same notes on another instrument, or why it cannot give them. */
export type Mapped = { kind: "mapped"; stopped: Stopped } | Unplayable;

/** At least one reason; `string` is a number on the first instrument. */
export interface Unplayable {
  kind: "unplayable";
  reasons: readonly { string: number; why: string }[];
}

/** Semitones by string number; null where a string has no dependable pitch. */
type Offsets = ReadonlyMap<number, Semitones | null>;

/** A set of stages with all that it does. */
interface HeldStages {
  stages: readonly Stage[];
  offsets: Offsets;
  /** What each stage does, in a form that can be compared across the two instruments. */
  effects: readonly string[];
}

/**
 * Makes the translator of places from one copedent to another. It goes by what pedals and levers do, never by their
 * letters, which differ from teacher to teacher (letters in use: b0b.com, steelguitarforum.com t=184788,
 * playsteelguitar.com), nor by where they stand (pedalsteelmusic.com/?p=821, B. Hempker).
 *
 * Frets stay, and strings go as {@link matchStrings} says. Those held must sound the same, under stages that feet and
 * knees can hold on the other instrument. Of all such sets the one is taken that leaves the strings not held most
 * alike, so that what is down for the events around stays down; then the one whose stages do what the event's do; then
 * the smallest; then the one with more of the same ids. From a copedent to itself a set that can be held stays as it is.
 *
 * The translator throws UnknownChangeError on a change that `from` lacks. It keeps what it worked out: make one for a
 * whole part.
 */
export function effectMap(from: Copedent, to: Copedent): (stopped: Stopped) => Mapped {
  const matched = matchStrings(from, to);
  const sets = holdableSets(to).map((stages) => describeStages(to, stages, (string) => string));
  const known = new Map<string, HeldStages | Unplayable>();
  return (stopped) => {
    const { strings } = stopped;
    const missing = strings.filter((string) => !matched.has(string));
    if (missing.length > 0) return unplayable(missing, (string) => noString(from, to, string));
    const past = strings.filter((_, at) => (fretsOf(stopped)[at] ?? 0) > to.fretCount);
    if (past.length > 0)
      return unplayable(past, () => `is held past the last fret of ${to.name}, ${to.fretCount}`);
    const key = `${strings}|${stopped.changes}`;
    const found = known.get(key) ?? chooseSet(from, to, stopped, sets, matched);
    known.set(key, found);
    if ("reasons" in found) return found;
    return {
      kind: "mapped",
      stopped: {
        ...stopped,
        strings: strings.map((string) => matched.get(string) ?? string),
        changes: found.stages.map((stage) => stage.id),
      },
    };
  };
}

function chooseSet(
  from: Copedent,
  to: Copedent,
  { strings, changes }: Stopped,
  sets: readonly HeldStages[],
  matched: ReadonlyMap<number, number>,
): HeldStages | Unplayable {
  const held = describeStages(from, engagedStages(from, changes), (string) => matched.get(string));
  const unsure = strings.filter((string) => held.offsets.get(matched.get(string) ?? 0) === null);
  if (unsure.length > 0)
    return unplayable(unsure, () => `gives no dependable pitch on ${from.name} with ${changes.join(", ")}`);
  const targets = strings.flatMap((string) => matched.get(string) ?? []);
  const fits = (set: HeldStages) =>
    targets.every((string) => set.offsets.get(string) === held.offsets.get(string));
  let best: { set: HeldStages; distance: readonly number[] } | null = null;
  for (const set of sets) {
    if (!fits(set)) continue;
    const distance = distanceBetween(set, held);
    if (best === null || isLess(distance, best.distance)) best = { set, distance };
  }
  return best?.set ?? whyNone(to, strings, sets, matched, held.offsets);
}

/** How far a set stands from what was held, the weightiest count first, see {@link effectMap}. */
function distanceBetween(set: HeldStages, held: HeldStages): number[] {
  let unlike = 0;
  for (const [string, offset] of held.offsets) if (set.offsets.get(string) !== offset) unlike += 1;
  const sameIds = set.stages.filter(({ id }) => held.stages.some((stage) => stage.id === id)).length;
  return [unlike, countDifferences(set.effects, held.effects), set.stages.length, -sameIds];
}

function isLess(one: readonly number[], other: readonly number[]): boolean {
  const at = one.findIndex((count, index) => count !== other[index]);
  return at >= 0 && (one[at] ?? 0) < (other[at] ?? 0);
}

/** How many entries only one of two lists has, repeated ones counted. */
function countDifferences(one: readonly string[], other: readonly string[]): number {
  const left = [...other];
  let alone = 0;
  for (const entry of one) {
    const at = left.indexOf(entry);
    if (at < 0) alone += 1;
    else left.splice(at, 1);
  }
  return alone + left.length;
}

/** @param rename number of a string on the other instrument; undefined where it has none like it */
function describeStages(
  copedent: Copedent,
  stages: readonly Stage[],
  rename: (string: number) => number | undefined,
): HeldStages {
  const offsets = new Map<number, Semitones | null>();
  for (const { number } of copedent.strings) {
    const renamed = rename(number);
    if (renamed !== undefined) offsets.set(renamed, stringOffset(copedent, number, stages));
  }
  const effectOf = (pulls: Pulls) =>
    Object.entries(pulls)
      .flatMap(([string, pull]) => (pull === 0 ? [] : [`${rename(Number(string)) ?? "other"}:${pull}`]))
      .sort()
      .join();
  return { stages, offsets, effects: stages.map(({ pulls }) => effectOf(pulls)) };
}

function whyNone(
  to: Copedent,
  strings: readonly number[],
  sets: readonly HeldStages[],
  matched: ReadonlyMap<number, number>,
  wanted: Offsets,
): Unplayable {
  const offsetOf = (string: number) => wanted.get(matched.get(string) ?? 0) ?? 0;
  const canMove = (string: number) =>
    sets.some((set) => set.offsets.get(matched.get(string) ?? 0) === offsetOf(string));
  const lacking = strings.filter((string) => !canMove(string));
  if (lacking.length > 0)
    return unplayable(lacking, (string) => `cannot go ${pullToWords(offsetOf(string))} on ${to.name}`);
  const moved = strings.filter((string) => offsetOf(string) !== 0);
  return unplayable(
    moved,
    (string) =>
      `cannot go ${pullToWords(offsetOf(string))} on ${to.name} while the others are held as they are`,
  );
}

function noString(from: Copedent, to: Copedent, number: number): string {
  const string = from.strings.find((each) => each.number === number);
  if (string === undefined) return `is not on ${from.name}`;
  const begins = string.beginsAtFret ? ` from fret ${string.beginsAtFret} on` : "";
  return `is tuned to ${midiToName(string.openMidi)}${begins}, and ${to.name} has no such string`;
}

function unplayable(strings: readonly number[], why: (string: number) => string): Unplayable {
  return {
    kind: "unplayable",
    reasons: strings.map((string) => ({ string, why: `String ${string} ${why(string)}.` })),
  };
}
