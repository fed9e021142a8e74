import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import type { Explained } from "./explainCandidate";
import type { NoPlace } from "./NoPlace";
import type { Place } from "./Place";
import type { PartLocks } from "./PlaceLocks";
import type { Weights } from "./weights";

export interface PlaceSequenceOptions {
  key?: Key | undefined;
  weights?: Weights;
  maxFret?: number;
  /** Whether the bar may be slanted; only where asked for. */
  slants?: boolean | undefined;
  /** What a person holds to in the whole part; beside the locks of single events. */
  locks?: PartLocks | undefined;
  /** Told how far the search is, 0 to 1, some fifty times on the way: it does not give the thread back before its end. */
  onProgress?: ((fraction: number) => void) | undefined;
}

/** A place with what it costs the part. */
export interface CostedPlace extends Place {
  /** Cost of the cheapest way to play the whole part that uses this place for this event. */
  cost: number;
  /** Which notes of the event sound here, as indices into its `notesMidi`, one for each string; the rest is stopped. */
  sounding: readonly number[];
}

export interface PlacedEvent {
  startSec: Seconds;
  /** Index into `candidates`; null where the notes cannot be played. */
  chosenIndex: number | null;
  /** Every candidate, by what is stopped, then fret, then fewest changes. */
  candidates: CostedPlace[];
  /** Why there are no candidates; null where there are some. */
  whyNone: NoPlace | null;
}

export interface PlacedSequence {
  /** One for each event given, in the order given. */
  events: PlacedEvent[];
  /** Cost of the chosen path: of every chosen place and of every move between neighbours. */
  totalCost: number;
  /** For each event what is chosen on the cheapest way through one candidate of one event, as `chosenIndex`. */
  chosenThrough(event: number, candidate: number): (number | null)[];
  /** What makes up a candidate's cost, and what to do for it, in words. */
  explain(event: number, candidate: number): Explained;
}
