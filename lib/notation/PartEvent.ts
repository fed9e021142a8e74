import type { Seconds } from "@/lib/units/quantities";
import type { Technique } from "./Technique";

/** How a part event begins, against the one before it on the same strings. */
export const ARTICULATIONS = [
  /** A new pick. */
  "pick",
  /** The bar moved while the strings rang. */
  "slide",
  /** A pedal or lever was pressed while the strings rang. */
  "press",
  /** A pedal or lever was let off while the strings rang. */
  "release",
  /** Bar and pedals moved together while the strings rang. */
  "slidePress",
  /** Nothing is picked and nothing moves: what rang sounds on, over a bar line or beside other strings. */
  "tie",
] as const;
export type Articulation = (typeof ARTICULATIONS)[number];

/**
 * One thing the player does: strings sounding at one fret, or each at its own, with one set of changes engaged.
 * `strings` are string numbers as the player counts them; `changes` are ids of the copedent.
 */
export interface PartEvent {
  id: string;
  startSec: Seconds;
  endSec: Seconds;
  strings: number[];
  /** 0 = open; where `frets` is given, the lowest of them that is not open. */
  fret: number;
  /** For each of `strings` its own fret, as under fingers or a slanted bar; null or left out where one holds for all. */
  frets?: number[] | null;
  changes: string[];
  articulation: Articulation;
  /** Each once, in the order of `TECHNIQUES`; none where left out. */
  techniques?: readonly Technique[];
}
