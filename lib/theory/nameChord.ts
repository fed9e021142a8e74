import { withinOctave } from "@/lib/units/pitch";
import type { PitchClass } from "@/lib/units/quantities";
import { isShorthand, SHORTHAND_DEGREES, type Shorthand } from "./harte";
import { degreeToSemitones } from "./interval";

/** One way to name a set of pitch classes. */
export interface ChordName {
  root: PitchClass;
  quality: Shorthand;
  /** As in Harte's parentheses: `9` where it is added, `*5` where the chord goes without. */
  extensions: readonly string[];
}

/** Notes that can be added to any chord, to one with a large third, to a dominant seventh; by semitones above the root. */
const ADDED: Readonly<Record<number, string>> = { 2: "9", 5: "11", 9: "13" };
const ADDED_TO_MAJOR: Readonly<Record<number, string>> = { 6: "#11" };
const ADDED_TO_SEVENTH: Readonly<Record<number, string>> = { 1: "b9", 3: "#9", 8: "b13" };
/** All that is added to suspended chords, which with more would go by a plainer name. */
const ADDED_TO_SUSPENDED: Readonly<Record<number, string>> = { 10: "b7" };
/** What a name costs: notes added, and named notes beyond a triad, against plain triads; a local choice. */
const COST = { sixthOrSeventh: 1, addedNote: 2, noFifth: 1, most: 5 } as const;
const MOST_ADDED = 1;

/**
 * Every equally plain name of a set of pitch classes: plain triads before sixths and sevenths, those before added notes.
 * Sets of notes do not always tell one chord: diminished sevenths and augmented triads have a name on each of their
 * notes, a suspended fourth is a suspended second a fourth higher, and a diminished triad is a seventh without its root
 * too. Which one is meant, the number on the chart says.
 * @param pitchClasses in any order, repeated or not
 * @returns empty where the notes are no chord with a usual name; by root from C, then in the order of Harte's table
 */
export function nameChord(pitchClasses: readonly PitchClass[]): readonly ChordName[] {
  const notes = [...new Set(pitchClasses.map(withinOctave))].sort((a, b) => a - b);
  const key = notes.join();
  const known = namesOf.get(key) ?? chooseNames(notes);
  namesOf.set(key, known);
  return known;
}

/** There are no more than 4,096 sets of pitch classes, and an instrument gives a few of them many times. */
const namesOf = new Map<string, readonly ChordName[]>();

function chooseNames(notes: readonly PitchClass[]): ChordName[] {
  const names = notes.flatMap((root) => namesOn(root, notes));
  const best = Math.min(COST.most, ...names.map(({ cost }) => cost));
  const plainest = names.filter(({ cost }) => cost === best).map(({ name }) => name);
  return plainest
    .filter((name) => !plainest.some((other) => other.root === name.root && isShorter(other, name)))
    .flatMap((name) =>
      name.quality === "dim" && name.extensions.length === 0 ? [name, rootlessSeventh(name)] : [name],
    );
}

/** Whether one of two names on a root says with fewer additions what is the same chord: `maj9` for `maj7(9)`. */
function isShorter(one: ChordName, other: ChordName): boolean {
  return one.extensions.length < other.extensions.length;
}

function namesOn(root: PitchClass, notes: readonly PitchClass[]): { name: ChordName; cost: number }[] {
  const above = notes.map((note) => withinOctave(note - root));
  return Object.keys(SHORTHAND_DEGREES).flatMap((quality) => {
    const name = isShorthand(quality) ? nameAs(quality, above) : null;
    return name === null ? [] : [{ name: { ...name.name, root }, cost: name.cost }];
  });
}

/** The notes, as semitones above a root, named as a chord of that quality; null where it is none. */
function nameAs(quality: Shorthand, above: readonly number[]) {
  const tones = SHORTHAND_DEGREES[quality].map((degree) => withinOctave(degreeToSemitones(degree) ?? 0));
  const missing = tones.filter((tone) => !above.includes(tone));
  const added = above.filter((tone) => !tones.includes(tone));
  const beyondTriad = Math.max(0, tones.length - 3);
  const noFifth = missing.length === 1 && missing[0] === 7 && tones.length > 2;
  if (missing.length > 0 && !noFifth) return null;
  if (added.length > (tones.length < 3 ? 0 : MOST_ADDED)) return null;
  const words = added.map((tone) => additionsTo(quality, tones)[tone]);
  if (words.some((word) => word === undefined)) return null;
  const cost =
    Math.min(1, beyondTriad) * COST.sixthOrSeventh +
    Math.max(0, beyondTriad - 1) * COST.addedNote +
    added.length * COST.addedNote +
    (noFifth ? COST.noFifth : 0);
  const extensions = [...(noFifth ? ["*5"] : []), ...words.flatMap((word) => word ?? [])];
  return { name: { quality, extensions }, cost };
}

function additionsTo(quality: Shorthand, tones: readonly number[]): Readonly<Record<number, string>> {
  if (quality === "sus2" || quality === "sus4") return ADDED_TO_SUSPENDED;
  if (quality === "7") return { ...ADDED, ...ADDED_TO_MAJOR, ...ADDED_TO_SEVENTH };
  return tones.includes(4) ? { ...ADDED, ...ADDED_TO_MAJOR } : ADDED;
}

/** The dominant seventh whose third is the root of a diminished triad. */
function rootlessSeventh({ root }: ChordName): ChordName {
  return { root: withinOctave(root - 4), quality: "7", extensions: ["*1"] };
}
