import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import type { Glide } from "./glideActs";
import type { CostTerm, Place, Placed } from "./Place";
import type { PlaceLocks } from "./PlaceLocks";
import type { Weights } from "./weights";

/** What is known around the notes to be placed; everything may be left out. */
export interface RankContext {
  /**
   * Where the player is just before, and goes just after. Changes of theirs that the copedent lacks (written
   * for another guitar) are passed over.
   */
  before?: Placed;
  after?: Placed;
  /** From the start of the notes before to these; and from these to the ones after. */
  secondsSinceBefore?: Seconds;
  secondsUntilAfter?: Seconds;
  /** How long the notes last. */
  lengthSec?: Seconds;
  /** Chord in force, Harte syntax. */
  chordLabel?: string;
  key?: Key;
  /** How the notes were heard to come out of those before. */
  glide?: Glide;
  /** What it costs to go on from a place, as with the glides that follow. */
  onward?: (place: Place) => number;
  /** Whether the bar may be slanted; only where asked for. */
  slants?: boolean | undefined;
  /** What a person holds to. */
  locks?: PlaceLocks;
  weights?: Weights;
}

export interface RankedPlace extends Place {
  /** Sum of `terms`. */
  cost: number;
  terms: CostTerm[];
  /** What to do and what speaks for or against it, in plain words. */
  reason: string;
  /** Whether this place is one of the few worth showing first: each differs in kind from those above it. */
  standsOut: boolean;
}
