import type { Midi, Semitones } from "@/lib/units/quantities";

/**
 * Where a change is worked: a floor pedal by its place from the left (0 to 9), a knee lever by its place and throw,
 * a finger behind the bar, or a lock, which stays engaged by itself and holds no foot or knee.
 */
export type Slot =
  | { kind: "pedal"; place: number }
  | { kind: "knee"; knee: "left" | "right"; throw: "left" | "right" | "up" }
  | { kind: "hand" }
  | { kind: "lock" };

/** One stage of a change: semitones against the open string, by string number. */
export type Pulls = Readonly<Record<number, Semitones>>;

/** A pedal or lever. */
export interface Change {
  /** Stable name within the copedent as written in tab: a letter, then letters or digits. */
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
  /**
   * The fret at which the string begins, for a string shorter than the others (the fifth of a banjo begins at 5): it sounds
   * `openMidi` there, and cannot be stopped below. 0 where left out.
   */
  beginsAtFret?: number;
}

/** What a string gives under a combination of stages, where the rules of combination say otherwise or nothing. */
export interface Combination {
  string: number;
  /** Holds where all of these are engaged. Of several that hold, the one that names the most. */
  stages: readonly string[];
  semitones: Semitones;
}

/**
 * Strings, pedals and levers of one instrument.
 * On one string raises do not add (the largest wins), nor do lowers; a raise and a lower together add only
 * where `splits` lists that string, otherwise the combination gives no dependable pitch.
 */
export interface Copedent {
  id: string;
  name: string;
  /** Where the chart is published; empty for a player's own. */
  source: string;
  /** What stops the strings: a bar at one fret for all of them, or fingers, each string at a fret of its own. */
  stoppedBy: "bar" | "fingers";
  strings: readonly CopedentString[];
  changes: readonly Change[];
  /** String numbers on which a raise and a lower together give their sum, tuned by a split screw. */
  splits: readonly number[];
  /** Exceptions to the rules of combination, as tuned on this guitar; usually none. */
  combinations: readonly Combination[];
  /** Places of the pedals over which the left foot rests; others are a reach. Empty where nothing is known of it. */
  footRest: readonly number[];
  /**
   * The usual three-string grips, string numbers ascending: a fixed spread of the picking hand. The strings
   * they hold between them are the ones that carry the chord of a position. Empty where nothing is known of them.
   */
  grips: readonly (readonly number[])[];
  /** Highest marked fret. */
  fretCount: number;
}
