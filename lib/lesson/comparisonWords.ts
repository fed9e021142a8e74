import type { Comparison } from "./Comparison";
import type { GuessLane } from "./GuessValue";

const WORDS: Readonly<Record<Comparison, string>> = {
  same: "the same",
  enharmonic: "the same by ear, spelled otherwise",
  relative: "its relative minor or major",
  parallel: "the right home note, major for minor",
  fifth: "a fifth away",
  bass: "the right chord over another bass",
  added: "the right chord, but for an added note",
  kind: "the right root, another kind of chord",
  sameNotes: "the same notes by another root",
  octave: "the right notes, octaves off",
  near: "a step off at most",
  part: "some of it right",
  more: "all of it, and more",
  fewer: "right as far as it goes",
  string: "the right notes, in another place",
  fret: "the right strings, another fret",
  pedals: "the right strings and fret, other pedals",
  other: "something else",
  none: "nothing written there to compare with",
};

/** How a guess stands to the answer, in words that follow "your guess is". */
export function comparisonWords(comparison: Comparison): string {
  return WORDS[comparison];
}

/** Those that a teacher would count as right: the ear found it, whatever it was called or wherever it lies. */
const FOUND: readonly Comparison[] = ["same", "enharmonic", "sameNotes", "string"];

/** Whether a guess counts as found. */
export function isFound(comparison: Comparison): boolean {
  return FOUND.includes(comparison);
}

/** What a lane is called where its cover is spoken of. */
export const LANE_WORDS: Readonly<Record<GuessLane, string>> = {
  home: "home",
  changes: "changes",
  heard: "heard notes",
  places: "places",
};
