import type { Certainty } from "@/lib/hearing/Hearing";
import type { Key } from "@/lib/theory/key";
import type { Cents, Midi } from "@/lib/units/quantities";
import type { Difference } from "./nearMisses";

/** How far one note of a guess agrees. */
export interface NoteFit {
  midi: Midi;
  /** Probability that it sounds, whoever plays it. */
  fit: Certainty;
  /** How far it stands off the grid of the record's tuning. */
  offCents: Cents;
}

/** How far the notes of a guess agree with a passage of the record, and its near misses. */
export interface NotesFit {
  kind: "notes";
  notesMidi: Midi[];
  /** Probability that this is what one player plays there, if it is as likely as not to be so before one listens. */
  fit: Certainty;
  perNote: NoteFit[];
  /** Best first. */
  nearest: NearNotes[];
}

/** A near miss of some notes, and how it reads. */
export interface NearNotes {
  notesMidi: Midi[];
  change: Difference;
  fit: Certainty;
}

export interface ChordFit {
  kind: "chord";
  label: string;
  fit: Certainty;
  /** Best first. */
  nearest: { label: string; fit: Certainty }[];
}

export interface KeyFit {
  kind: "key";
  key: Key;
  fit: Certainty;
  /** Best first. */
  nearest: { key: Key; fit: Certainty }[];
}

export type FitAnswer = NotesFit | ChordFit | KeyFit;
