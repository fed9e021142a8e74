import type { StageId } from "@/lib/instrument/stages";
import type { Midi } from "@/lib/units/quantities";

/** Where the hands, feet and knees are: what a part event writes down. */
export interface Placed {
  /** Of the bar, 0 = open strings; where `frets` is given, the lowest of them that is not open. */
  fret: number;
  /** For each of `strings` its own fret, under fingers or a slanted bar; null or left out where one holds for all. */
  frets?: readonly number[] | null;
  /** Engaged stages, in the copedent's order. */
  changes: readonly StageId[];
  /** String numbers as the player counts them. */
  strings: readonly number[];
}

/** A place where given notes can be played; `strings[i]` sounds `notesMidi[i]`. */
export interface Place extends Placed {
  notesMidi: readonly Midi[];
}

/** What the costs are made of; each is explained beside its weight. */
export type TermName =
  | "neck span"
  | "high frets"
  | "open strings"
  | "grip shape"
  | "too many for a pick"
  | "crossed strings"
  | "split"
  | "half stop"
  | "changes engaged"
  | "far lever"
  | "foot off its rest"
  | "chord in force"
  | "position of home"
  | "bar travel"
  | "pedals and levers"
  | "foot move"
  | "grip change"
  | "glide heard"
  | "notes stopped"
  | "picked anew"
  | "slant"
  | "stretch"
  | "fingers down"
  | "barre"
  | "strings skipped"
  | "hand shift"
  | "fingers moved"
  | "same shape"
  | "string crossing"
  | "what follows"
  | "rest of the part";

/** One part of a cost; negative where the term speaks for the place. */
export interface CostTerm {
  name: TermName;
  cost: number;
}
