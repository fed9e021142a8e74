import { riseAt } from "@/lib/instrument/effectivePitch";
import type { Midi } from "@/lib/units/quantities";
import { compareLists } from "./compareLists";
import { type FixedStages, NOTHING_FIXED } from "./FixedStages";
import { finderFor } from "./holdFinder";
import type { Neck } from "./neck";
import type { Place } from "./Place";
import type { Spot } from "./Spot";

export interface CandidateOptions {
  /** Highest fret to look at; the copedent's last by default. */
  maxFret?: number | undefined;
  /** How many of the notes are picked, the first ones; the rest sound already. All by default. */
  pickedCount?: number | undefined;
  /** Whether the bar may be slanted too; `lockedCandidates` then adds slants. */
  slants?: boolean | undefined;
  /** What is settled about feet and knees. */
  fixed?: FixedStages | undefined;
}

/**
 * Every way to sound the notes together: one fret for all strings, each note on a string of its own, and a set of
 * changes that feet and knees can hold and of which none could be left out. Hands are no limit here, only a cost. Of two
 * strings picked in unison it is all the same which is which: a set of strings comes once. Ordered by fret, then fewest
 * changes, then strings.
 * @param notesMidi whole MIDI pitches, in any order; the same pitch twice asks for a unison on two strings
 * @returns empty where the notes cannot be played
 */
export function findCandidates(
  neck: Neck,
  notesMidi: readonly Midi[],
  { maxFret = neck.copedent.fretCount, pickedCount = notesMidi.length, fixed }: CandidateOptions = {},
): Spot[] {
  const [first] = notesMidi;
  if (first === undefined) return [];
  const { strings } = neck.copedent;
  const finder = finderFor(neck, fixed ?? NOTHING_FIXED);
  const twins = notesMidi.map((note, index) =>
    index === 0 || index >= pickedCount ? -1 : notesMidi.lastIndexOf(note, index - 1),
  );
  const found: Spot[] = [];
  const taken: number[] = [];
  const offsets: number[] = [];
  const goOn = (fret: number): void => {
    const at = taken.length;
    const note = notesMidi[at];
    if (note === undefined) {
      for (const hold of finder.find(taken, offsets, pickedCount)) found.push({ fret, hold });
      return;
    }
    const twin = twins[at]!;
    for (let index = 0; index < strings.length; index += 1) {
      const string = strings[index]!;
      const rise = riseAt(fret, string.beginsAtFret);
      if (rise === null || taken.includes(index)) continue;
      if (twin >= 0 && string.number < strings[taken[twin]!]!.number) continue;
      const offset = note - string.openMidi - rise;
      if (finder.offsetsOf(index).includes(offset)) take(index, offset, fret);
    }
  };
  const take = (index: number, offset: number, fret: number): void => {
    taken.push(index);
    offsets.push(offset);
    goOn(fret);
    taken.pop();
    offsets.pop();
  };
  strings.forEach(({ openMidi, beginsAtFret }, index) => {
    for (const offset of finder.offsetsOf(index)) {
      for (const fret of fretsThatRaise(first - openMidi - offset, beginsAtFret))
        if (fret <= maxFret) take(index, offset, fret);
    }
  });
  return found.sort(inOrder);
}

/** {@link findCandidates} as places: `strings[i]` sounds `notesMidi[i]`. */
export function candidatePlaces(
  neck: Neck,
  notesMidi: readonly Midi[],
  options: CandidateOptions = {},
): Place[] {
  return findCandidates(neck, notesMidi, options).map((spot) => placeOf(spot, notesMidi));
}

export function placeOf({ fret, frets, hold }: Spot, notesMidi: readonly Midi[]): Place {
  return { fret, ...(frets && { frets }), changes: hold.set.ids, strings: hold.strings, notesMidi };
}

/** The frets at which a string is that far above its open pitch. */
function fretsThatRaise(rise: number, beginsAtFret = 0): number[] {
  if (!Number.isInteger(rise) || rise < 0) return [];
  return rise === 0 && beginsAtFret > 0 ? [0, beginsAtFret] : [rise + beginsAtFret];
}

function inOrder(a: Spot, b: Spot): number {
  const [one, other] = [a.hold, b.hold];
  return (
    a.fret - b.fret ||
    one.set.ids.length - other.set.ids.length ||
    compareLists(one.strings, other.strings) ||
    (one.set.ids.join() < other.set.ids.join() ? -1 : 1)
  );
}
