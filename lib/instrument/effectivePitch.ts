import type { Midi, Semitones } from "@/lib/units/quantities";
import type { Copedent } from "./Copedent";
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

/**
 * The pitch of a string behind the bar.
 * @param fret 0 (open) upwards
 * @param changes ids of the engaged stages
 * @returns MIDI pitch, or null where the instrument has no such string or the changes give no dependable pitch
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
  return open === undefined || offset === null ? null : open.openMidi + fret + offset;
}
