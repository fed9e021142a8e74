import { formatHarte } from "@/lib/theory/harte";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { nameChord } from "@/lib/theory/nameChord";
import { chordToNumberText } from "@/lib/theory/numberChart";
import { spellPitchClass } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Copedent } from "./Copedent";
import { effectiveMidi } from "./effectivePitch";
import { holdableSets } from "./holdable";
import { openHome } from "./openHome";
import type { StageId } from "./stages";

/** What a combination of pedals and levers makes of the strings. */
export interface CombinationChord {
  /** Engaged stages, as they were asked for; none for the open strings. */
  changes: readonly StageId[];
  /** Strings that were asked about and give a dependable pitch. */
  strings: readonly number[];
  /** Strings that were asked about and give none: a raise and a lower meet there without a split. */
  unsureStrings: readonly number[];
  /** All names that the notes may go by at fret 0, the tonic's first; empty where they are no usual chord. */
  names: readonly CombinationName[];
}

export interface CombinationName {
  /** As in `A:maj`, at fret 0. */
  label: string;
  /** The same as a number against the open strings' own chord (`4`), at any fret; null where they have none. */
  number: string | null;
}

/** The strings that carry the chord of a position: those in the usual grips, or all where no grips are known. */
export function chordStrings(copedent: Copedent): number[] {
  const inGrips = new Set(copedent.grips.flat());
  const numbers = copedent.strings.map((string) => string.number);
  return inGrips.size === 0 ? numbers : numbers.filter((number) => inGrips.has(number));
}

/**
 * Which chord the strings give at fret 0 with those changes engaged, whether or not feet and knees can hold them.
 * @param strings by default {@link chordStrings}
 * @throws UnknownChangeError on an id that the copedent lacks
 */
export function combinationChord(
  copedent: Copedent,
  changes: readonly StageId[],
  strings: readonly number[] = chordStrings(copedent),
): CombinationChord {
  return chordUnder(copedent, openHome(copedent), changes, strings);
}

/** The chord of every combination that feet and knees can hold, fewest changes first. */
export function everyCombinationChord(
  copedent: Copedent,
  strings: readonly number[] = chordStrings(copedent),
): CombinationChord[] {
  const home = openHome(copedent);
  const sets = holdableSets(copedent).sort((a, b) => a.length - b.length);
  return sets.map((stages) =>
    chordUnder(
      copedent,
      home,
      stages.map((stage) => stage.id),
      strings,
    ),
  );
}

function chordUnder(
  copedent: Copedent,
  home: Key | null,
  changes: readonly StageId[],
  strings: readonly number[],
): CombinationChord {
  const pitches = strings.map((string) => effectiveMidi(copedent, string, 0, changes));
  const names = nameChord(pitches.flatMap((midi) => (midi === null ? [] : [midiToPitchClass(midi)])));
  const written = names.map(({ root, quality, extensions }): CombinationName => {
    const rootName = spellPitchClass(root, home ?? C_MAJOR);
    const label = formatHarte({ rootName, quality, extensions, bass: "1" });
    return { label, number: home === null ? null : chordToNumberText(label, home) };
  });
  return {
    changes,
    strings: strings.filter((_, at) => pitches[at] !== null),
    unsureStrings: strings.filter((_, at) => pitches[at] === null),
    names: tonicFirst(written, home),
  };
}

function tonicFirst(names: readonly CombinationName[], home: Key | null): CombinationName[] {
  if (home === null) return [...names];
  const isTonic = ({ label }: CombinationName) => label.startsWith(`${home.tonic}:`);
  return [...names.filter(isTonic), ...names.filter((name) => !isTonic(name))];
}
