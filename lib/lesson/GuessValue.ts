import type { Key } from "@/lib/theory/key";
import type { Midi } from "@/lib/units/quantities";

/** What can be kept covered, lane by lane: home, the changes with their bass, the heard notes, the places of the part. */
export const GUESS_LANES = ["home", "changes", "heard", "places"] as const;
export type GuessLane = (typeof GUESS_LANES)[number];

/** Where something lies on a steel: as an event of the part says it, without its times. */
export interface GuessedPlace {
  /** String numbers as the player counts them. */
  strings: readonly number[];
  /** 0 = open. */
  fret: number;
  /** Ids of pedals and levers of the part's copedent. */
  changes: readonly string[];
}

/** What a learner takes something for, in the form of its lane; an answer has the same form. */
export interface GuessValues {
  home: Key;
  /** A Harte label; `N` for no chord. */
  changes: { label: string };
  /** Notes that are picked together, whole semitones, ascending. */
  heard: { midis: readonly Midi[] };
  places: GuessedPlace;
}

/** A guess with its lane, so that each lane's own form goes with it. */
export type LaneValue = { [L in GuessLane]: { lane: L; value: GuessValues[L] } }[GuessLane];
