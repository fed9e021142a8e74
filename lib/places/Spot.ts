import { engagedStages } from "@/lib/instrument/stages";
import type { Hold } from "./Hold";
import { holdsOf } from "./holdBook";
import type { Neck } from "./neck";
import type { Placed } from "./Place";
import { type Slant, slantOf } from "./slants/Slant";

/** A hold with the bar at a fret: a place as costs see it. */
export interface Spot {
  /** 0 = open strings; under a slanted bar the lowest. */
  fret: number;
  hold: Hold;
  /** How the bar lies slanted; left out where it lies straight. */
  slant?: Slant;
  /** Under a slanted bar, the fret of each of the hold's strings. */
  frets?: readonly number[];
}

/**
 * A place as costs see it. Throws `UnknownChangeError` where the copedent lacks a change of it.
 * @param pickedCount how many of its strings are picked, the first ones; the others sound already. All by default
 */
export function spotOf(neck: Neck, { fret, frets, changes, strings }: Placed, pickedCount?: number): Spot {
  const set = neck.describe(engagedStages(neck.copedent, changes));
  const hold = holdsOf(neck).hold(strings, set, pickedCount);
  if (!frets) return { fret, hold };
  const slant = slantOf(strings.map((string, at) => ({ index: neck.indexOf(string), fret: frets[at]! })));
  return { fret, hold, frets, ...(slant && { slant }) };
}

/** The fret of one of the strings of a spot, by its place in the hold. */
export function fretAt({ fret, frets }: Spot, at: number): number {
  return frets?.[at] ?? fret;
}
