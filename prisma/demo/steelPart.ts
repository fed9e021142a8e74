import type { Articulation } from "@/lib/notation/PartEvent";
import type { Beats } from "@/lib/units/quantities";

/** A part event in beats: bar, beat (1 to 5), length in beats, strings, fret, changes, how it begins. */
export type PlayedEvent = readonly [
  bar: number,
  beat: Beats,
  lengthBeats: Beats,
  strings: readonly number[],
  fret: number,
  changes: string,
  articulation: Articulation,
];

/**
 * The steel of the demo on E9, home at fret 5. Sixths on strings 3 and 5 or 4 and 6, thirds on 3 and 4, 4 and 5,
 * 5 and 6; a pedal that moves one voice under a held one (bars 3, 12 to 13), bar slides (bars 2, 9) and single
 * notes between.
 */
export const STEEL_PART: readonly PlayedEvent[] = [
  [1, 1, 2, [3, 5], 5, "", "pick"],
  [1, 3, 1, [3, 5], 5, "AB", "press"],
  [1, 4, 1, [3, 5], 5, "", "release"],

  [2, 1, 1, [3, 5], 5, "", "pick"],
  [2, 2, 2, [3, 5], 10, "", "slide"],
  [2, 4, 0.5, [5], 10, "", "pick"],
  [2, 4.5, 0.5, [4], 7, "", "pick"],

  [3, 1, 1.5, [4, 5], 5, "", "pick"],
  [3, 2.5, 2.5, [4, 5], 5, "A", "press"],

  [4, 1, 2, [5, 6], 5, "", "pick"],
  [4, 3, 0.5, [5], 5, "", "pick"],
  [4, 3.5, 0.5, [5], 5, "A", "press"],
  [4, 4, 1, [4], 5, "", "pick"],

  [5, 1, 2, [3, 4], 5, "", "pick"],
  [5, 3, 2, [4, 5], 5, "A", "pick"],

  [6, 1, 2, [5, 6], 5, "AB", "pick"],
  [6, 3, 1, [4], 5, "", "pick"],
  [6, 4, 1, [5], 5, "A", "pick"],

  [7, 1, 2, [4, 6], 5, "", "pick"],
  [7, 3, 2, [4, 6], 7, "BC", "slidePress"],

  [8, 1, 2, [3, 5], 7, "AB", "pick"],
  [8, 3, 0.5, [4], 7, "", "pick"],
  [8, 3.5, 0.5, [5], 7, "A", "pick"],
  [8, 4, 0.5, [6], 7, "B", "pick"],
  [8, 4.5, 0.5, [3, 4], 7, "BC", "pick"],

  [9, 1, 3, [3, 4], 10, "", "slidePress"],
  [9, 4, 1, [5], 10, "", "pick"],

  [10, 1, 2, [4, 5], 8, "AF", "pick"],
  [10, 3, 1, [4, 5], 7, "A", "slidePress"],
  [10, 4, 1, [4, 5], 5, "A", "slide"],

  [11, 1, 2, [5, 6], 7, "", "pick"],
  [11, 3, 0.5, [4], 7, "", "pick"],
  [11, 3.5, 0.5, [2], 7, "D", "pick"],
  [11, 4, 1, [5], 7, "", "pick"],

  [12, 1, 2, [3, 5], 7, "AB", "pick"],
  [12, 3, 2, [3, 4], 5, "BE", "pick"],

  [13, 1, 2, [3, 4], 5, "", "release"],
  [13, 3, 0.5, [5], 5, "", "pick"],
  [13, 3.5, 0.5, [5], 5, "A", "press"],
  [13, 4, 1, [4], 5, "", "pick"],

  [14, 1, 2, [3, 5], 5, "AB", "pick"],
  [14, 3, 2, [5, 6], 5, "AB", "pick"],

  [15, 1, 2, [4, 6], 5, "", "pick"],
  [15, 3, 2, [5, 6], 7, "AB", "pick"],

  [16, 1, 4, [4, 5, 6], 5, "", "pick"],
];
