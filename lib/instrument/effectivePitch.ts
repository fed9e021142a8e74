import type { Midi, Semitones } from "@/lib/units/quantities";
import type { Combination, Copedent } from "./Copedent";
import { engagedStages, type Stage, type StageId } from "./stages";

/**
 * How far a string stands from its open pitch under a set of stages. Raises on one string do not add, the
 * largest wins, and so with lowers (common practice, no source); a raise and a lower together give their sum
 * where the copedent tunes a split on that string (howcast.com lesson 512264), elsewhere no dependable pitch.
 * @returns semitones, or null where the combination gives no dependable pitch
 */
export function stringOffset(
  copedent: Copedent,
  stringNumber: number,
  stages: readonly Stage[],
): Semitones | null {
  const tuned = combinationOn(copedent, stringNumber, stages);
  if (tuned !== null) return tuned.semitones;
  let raise = 0;
  let lower = 0;
  for (const { pulls } of stages) {
    const pull = pulls[stringNumber] ?? 0;
    raise = Math.max(raise, pull);
    lower = Math.min(lower, pull);
  }
  if (raise > 0 && lower < 0 && !copedent.splits.includes(stringNumber)) return null;
  return raise + lower;
}

function combinationOn(
  copedent: Copedent,
  stringNumber: number,
  stages: readonly Stage[],
): Combination | null {
  let closest: Combination | null = null;
  for (const combination of copedent.combinations) {
    if (combination.string !== stringNumber) continue;
    if (!combination.stages.every((id) => stages.some((stage) => stage.id === id))) continue;
    if (closest === null || combination.stages.length > closest.stages.length) closest = combination;
  }
  return closest;
}

/**
 * The pitch of a string behind the bar or the finger.
 * @param fret 0 (open) upwards
 * @param changes ids of the engaged stages
 * @returns MIDI pitch, or null where the instrument has no such string, the string begins beyond the fret, or the changes
 * give no dependable pitch
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function effectiveMidi(
  copedent: Copedent,
  stringNumber: number,
  fret: number,
  changes: readonly StageId[],
): Midi | null {
  const open = copedent.strings.find((string) => string.number === stringNumber);
  const offset = stringOffset(copedent, stringNumber, engagedStages(copedent, changes));
  if (open === undefined || offset === null) return null;
  const rise = riseAt(fret, open.beginsAtFret);
  return rise === null ? null : open.openMidi + rise + offset;
}

/** How far a fret lifts a string above its open pitch; null where a short string cannot be stopped there. */
export function riseAt(fret: number, beginsAtFret = 0): Semitones | null {
  // A short string sounds open wherever the hand has nothing on it: fret 0 is open for every string.
  if (fret === 0) return 0;
  return fret < beginsAtFret ? null : fret - beginsAtFret;
}

/** Strings held down: all at one fret, or each at its own, as under a slanted bar or fingers. */
export interface Stopped {
  /** Of the bar, 0 = open; where `frets` is given, the lowest of them that is not open. */
  fret: number;
  /** For each of `strings` its own fret; null or left out where one fret holds for all. */
  frets?: readonly number[] | null;
  strings: readonly number[];
  changes: readonly StageId[];
}

/**
 * The pitches of strings held down, one for each of `strings`; null where a string gives none.
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function stoppedPitches(copedent: Copedent, stopped: Stopped): (Midi | null)[] {
  const { strings, fret, frets, changes } = stopped;
  return strings.map((string, at) => effectiveMidi(copedent, string, frets?.[at] ?? fret, changes));
}
