import type { Midi, Semitones } from "@/lib/units/quantities";

/** Where a change is worked: a floor pedal by its place from the left, or a knee lever by its place and throw. */
export type Slot =
  | { kind: "pedal"; place: number }
  | { kind: "knee"; knee: "left" | "right"; throw: "left" | "right" | "up" }
  | { kind: "hand" };

/** One stage of a change: semitones against the open string, by string number. */
export type Pulls = Readonly<Record<number, Semitones>>;

/** A pedal or lever. */
export interface Change {
  /** Stable name within the copedent: letters only, as written in tab. */
  id: string;
  /** What the player calls it, in words. */
  label: string;
  slot: Slot;
  /** Ordered stages; most changes have one, a lever with a felt half stop has two. */
  stages: readonly Pulls[];
}

/** A string as the player counts it, 1 furthest away. Order may be re-entrant: never sort by number for pitch. */
export interface CopedentString {
  number: number;
  openMidi: Midi;
}

/**
 * Strings, pedals and levers of one instrument.
 * On one string raises do not add (the largest wins), nor do lowers; a raise and a lower together add only
 * where `splits` lists that string, otherwise the combination gives no dependable pitch.
 */
export interface Copedent {
  id: string;
  name: string;
  /** Where the chart is published. */
  source: string;
  strings: readonly CopedentString[];
  changes: readonly Change[];
  /** String numbers on which a raise and a lower together give their sum, tuned by a split screw. */
  splits: readonly number[];
  /** Places of the pedals over which the left foot rests; others are a reach. */
  footRest: readonly number[];
  /**
   * The usual three-string grips, string numbers ascending: a fixed spread of the picking hand. The strings
   * they hold between them are the ones that carry the chord of a position.
   */
  grips: readonly (readonly number[])[];
  /** Highest marked fret. */
  fretCount: number;
}
