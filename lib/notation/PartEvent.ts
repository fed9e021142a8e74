import type { Seconds } from "@/lib/units/quantities";

/** How a part event begins, against the one before it on the same strings. */
export type Articulation =
  /** A new pick. */
  | "pick"
  /** The bar moved while the strings rang. */
  | "slide"
  /** A pedal or lever was pressed while the strings rang. */
  | "press"
  /** A pedal or lever was let off while the strings rang. */
  | "release"
  /** Bar and pedals moved together while the strings rang. */
  | "slidePress";

/**
 * One thing the player does: strings sounding at one fret with one set of changes engaged.
 * `strings` are string numbers as the player counts them; `changes` are ids of the copedent.
 */
export interface PartEvent {
  id: string;
  startSec: Seconds;
  endSec: Seconds;
  strings: number[];
  fret: number;
  changes: string[];
  articulation: Articulation;
}
