import type { Copedent } from "@/lib/instrument/Copedent";
import type { SlotCode } from "@/lib/instrument/chart/slotCode";
import type { Semitones } from "@/lib/units/quantities";

/**
 * A chart while it is edited: every field holds what was typed, good or bad, so that nothing typed is ever lost. Strings
 * and changes have keys of their own, by which moves stay with their string when strings are put in another order.
 */
export interface ChartDraft {
  name: string;
  source: string;
  stoppedBy: Copedent["stoppedBy"];
  frets: string;
  /** String 1 first. */
  strings: readonly DraftString[];
  changes: readonly DraftChange[];
  /** Keys of strings on which a raise and a lower together give their sum. */
  splits: readonly string[];
  combinations: readonly DraftCombination[];
  /** Keys of pedals over which the left foot rests. */
  footRest: readonly string[];
  /** As in `3 4 5, 4 5 6`. */
  grips: string;
}

export interface DraftString {
  key: string;
  /** As in `F#4`. */
  pitch: string;
  /** Empty for a string as long as the others. */
  beginsAtFret: string;
}

export interface DraftChange {
  key: string;
  id: string;
  label: string;
  slot: SlotCode;
  /** For each stage what was typed, by the key of the string; no entry where nothing was. */
  stages: readonly Readonly<Record<string, string>>[];
}

/** An exception to the rules of combination. */
export interface DraftCombination {
  string: string;
  /** Keys of changes, each with how deep it is engaged, 1 for the first stage. */
  stages: readonly { change: string; depth: number }[];
  semitones: Semitones;
}
