import { engagedStages } from "@/lib/instrument/stages";
import type { Hold } from "./Hold";
import { holdsOf } from "./holdBook";
import type { Neck } from "./neck";
import type { Placed } from "./Place";

/** A hold with the bar at a fret: a place as costs see it. */
export interface Spot {
  /** 0 = open strings. */
  fret: number;
  hold: Hold;
}

/**
 * A place as costs see it. Throws `UnknownChangeError` where the copedent lacks a change of it.
 * @param pickedCount how many of its strings are picked, the first ones; the others sound already. All by default
 */
export function spotOf(neck: Neck, { fret, changes, strings }: Placed, pickedCount?: number): Spot {
  const set = neck.describe(engagedStages(neck.copedent, changes));
  return { fret, hold: holdsOf(neck).hold(strings, set, pickedCount) };
}
