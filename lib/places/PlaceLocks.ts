import type { StageId } from "@/lib/instrument/stages";
import type { Midi } from "@/lib/units/quantities";
import type { Placed } from "./Place";

/** What a person has settled for a whole part. A lock is absolute: what does not keep it is left out. */
export interface PartLocks {
  /** Frets from the first to the last, both counted in; 0 = open. */
  frets?: { from: number; to: number };
  /** The strings that may be played; no others. */
  grip?: readonly number[];
  /** No floor pedal down; or just those over which the foot rests (A and B on E9). Levers are free either way. */
  pedals?: "up" | "down";
  /** Just these stages engaged, pedals, levers and locks, whether the strings need them or not; none: all of them off. */
  changes?: readonly StageId[];
}

/** What a person has settled for one event. */
export interface PlaceLocks extends PartLocks {
  /** Notes with the string that each is to be on. */
  strings?: readonly { midi: Midi; string: number }[];
  /** The bar's fret. */
  fret?: number;
  /** The whole place: fret, changes and strings; its strings in any order. */
  place?: Placed;
}
