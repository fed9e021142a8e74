import type { Midi, Semitones } from "@/lib/units/quantities";
import type { Copedent } from "../Copedent";
import type { SlotCode } from "./slotCode";

/**
 * A copedent as plain JSON: the one form in which it is written by hand, sent, kept and shared. What is left out is
 * as `readChart` says.
 */
export interface Chart {
  /** What the player calls the instrument. */
  name?: string;
  /** Where the chart is published. */
  source?: string;
  stoppedBy?: Copedent["stoppedBy"];
  /** String 1, string 2 and so on as the player counts them: its open pitch, or an object for a shorter string. */
  strings: (Midi | { midi: Midi; beginsAtFret?: number })[];
  /** Highest marked fret. */
  frets?: number;
  changes?: ChartChange[];
  /** Strings on which a raise and a lower together give their sum. */
  split?: number[];
  /** Exceptions to the rules of combination. */
  combinations?: { string: number; stages: string[]; semitones: Semitones }[];
  /** Pedals over which the left foot rests, by their places from the left. */
  footRest?: number[];
  /** Strings usually picked together. */
  grips?: number[][];
}

/** A pedal or lever: `moves` where it goes all the way, or `stages` where it has felt half stops; with both, `stages` come before `moves`. */
export interface ChartChange {
  id: string;
  /** What the player calls it; its id where left out. */
  label?: string;
  slot: SlotCode;
  moves?: ChartMoves;
  /** Each against the open strings, the lighter pull first. */
  stages?: ChartMoves[];
}

/** Semitones by string number: `{"5": 2, "10": 2}`. */
export type ChartMoves = Record<string, Semitones>;
