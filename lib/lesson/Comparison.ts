/**
 * How a guess stands to the answer. One list for all lanes, so that it can be kept and counted; which of them a lane can
 * give is said beside them.
 */
export const COMPARISONS = [
  /** All lanes. */
  "same",
  /** Home, changes: the same by ear, spelled otherwise. */
  "enharmonic",
  /** Home, changes: the relative minor or major, a small third apart, which shares its scale or two of its notes. */
  "relative",
  /** Home: the right tonic, major for minor or the other way round. */
  "parallel",
  /** Home, changes: a fifth away, up or down. */
  "fifth",
  /** Changes: the right chord over another bass. */
  "bass",
  /** Changes: the right triad, with a seventh or another note too many, too few or another one. */
  "added",
  /** Changes: the right root, another kind of chord. */
  "kind",
  /** Changes: the same notes, called by another root. */
  "sameNotes",
  /** Heard: the right notes, octaves off. */
  "octave",
  /** Heard: every note a whole step off at most. */
  "near",
  /** Heard: some of the notes are right, others are not. */
  "part",
  /** Heard: all of its notes, and others too. */
  "more",
  /** Heard: nothing but notes of it, and not all of them. */
  "fewer",
  /** Places: the same notes in another place, on other strings. */
  "string",
  /** Places: the right strings, pedals and levers at another fret. */
  "fret",
  /** Places: the right strings and fret with other pedals or levers. */
  "pedals",
  /** Nothing of all that. */
  "other",
  /** There is no answer there to compare with. */
  "none",
] as const;
export type Comparison = (typeof COMPARISONS)[number];
