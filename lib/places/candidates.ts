import type { Midi } from "@/lib/units/quantities";
import { HARD_LIMITS, handCanPick } from "./limits";
import { type HeldSet, holdsWithin, type Neck } from "./neck";
import type { Place } from "./Place";

export interface CandidateOptions {
  /** Highest fret to look at; the copedent's last by default. */
  maxFret?: number;
  /** Strings that the hand can pick at once, 3 by default; 4 with the ring finger. */
  maxStrings?: number;
  /** How many of the notes are picked, the first ones; the rest sound already. All by default. */
  pickedCount?: number;
}

/**
 * Every place where the notes sound together, within the hard limits of hands, feet and knees and without a
 * change too many: a place is left out when the same strings at the same fret give the same notes with some of
 * its changes let off. Ordered by fret, then fewest changes, then strings.
 * @param notesMidi whole MIDI pitches, in any order; the same pitch twice asks for a unison on two strings
 * @returns empty where the notes cannot be played
 */
export function candidatePlaces(
  neck: Neck,
  notesMidi: readonly Midi[],
  options: CandidateOptions = {},
): Place[] {
  const maxFret = options.maxFret ?? neck.copedent.fretCount;
  const maxStrings = options.maxStrings ?? HARD_LIMITS.stringsPerPick;
  const pickedCount = options.pickedCount ?? notesMidi.length;
  if (notesMidi.length === 0 || pickedCount > maxStrings) return [];
  const found = new Map<string, { set: HeldSet; place: Place }[]>();
  for (const set of neck.sets) {
    for (const { fret, strings } of stringChoices(set, notesMidi, pickedCount, maxFret)) {
      if (pickedCount > 0 && !handCanPick(strings.slice(0, pickedCount), maxStrings)) continue;
      const key = `${fret}:${strings.join("-")}`;
      const same = found.get(key) ?? [];
      if (same.some((other) => holdsWithin(other.set, set))) continue;
      same.push({ set, place: { fret, changes: set.ids, strings, notesMidi } });
      found.set(key, same);
    }
  }
  const places = [...found.values()].flatMap((same) => same.map(({ place }) => place));
  return places.sort(inOrder);
}

/** Every way of giving each note a string of its own under one set, with the fret that follows. */
function stringChoices(set: HeldSet, notesMidi: readonly Midi[], pickedCount: number, maxFret: number) {
  const choices: { fret: number; strings: number[] }[] = [];
  const pitches = [...set.openMidi];
  // Of two strings picked in unison it is all the same which is which; one that sounds already is one of its own.
  const twins = notesMidi.map((note, index) =>
    index === 0 || index >= pickedCount ? -1 : notesMidi.lastIndexOf(note, index - 1),
  );
  const assign = (fret: number, taken: readonly number[]): void => {
    const note = notesMidi[taken.length];
    if (note === undefined) {
      choices.push({ fret, strings: [...taken] });
      return;
    }
    const twin = twins[taken.length] ?? -1;
    for (const [string, open] of pitches) {
      if (open + fret !== note || taken.includes(string)) continue;
      if (twin < 0 || string > (taken[twin] ?? 0)) assign(fret, [...taken, string]);
    }
  };
  for (const [string, open] of pitches) {
    const fret = (notesMidi[0] ?? Number.NaN) - open;
    if (Number.isInteger(fret) && fret >= 0 && fret <= maxFret) assign(fret, [string]);
  }
  return choices;
}

function inOrder(a: Place, b: Place): number {
  return (
    a.fret - b.fret ||
    a.changes.length - b.changes.length ||
    compareLists(a.strings, b.strings) ||
    (a.changes.join() < b.changes.join() ? -1 : 1)
  );
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, index) => value !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}
