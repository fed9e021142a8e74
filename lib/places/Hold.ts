import type { Semitones } from "@/lib/units/quantities";
import type { HeldSet } from "./neck";

/** Strings sounding under a set of changes, wherever the bar is: all that costs ask of a place but its fret. */
export interface Hold {
  /** Counts the holds of a neck, from 0. */
  id: number;
  /** In the order of the notes that they sound; those picked come first. */
  strings: readonly number[];
  /** How many of the strings are picked; the others sound already. */
  pickedCount: number;
  set: HeldSet;
  /** How far the set moves each of the strings. */
  offsets: readonly Semitones[];
  /** For each change of the copedent: whether one of its stages pulls a string that sounds here. */
  disturbs: readonly boolean[];
  /** The same for two holds whose moves of feet and knees cost the same to come to: same set, same disturbing changes. */
  feetId: number;
  /** Lowest and highest string number under the picking hand; of all that sound where nothing is picked. */
  firstString: number;
  lastString: number;
  /** Strings that a raise and a lower pull at once. */
  splitStrings: number;
  /** Whether the strings picked lie in one usual grip, or are a single string or an octave pair; or grips are not known. */
  usualGrip: boolean;
  /** Whether some string picked nearer the player sounds higher than one picked further away. */
  crossed: boolean;
}
