import type { Certainty } from "@/lib/hearing/Hearing";
import type { Midi, Seconds } from "@/lib/units/quantities";

/** Of the method and of this form; readers pass over what another version wrote. */
export const TAKE_JUDGED_VERSION = 1;

/**
 * What was made of one stroke of the part: its notes were heard; others were heard in its place, some of its own perhaps
 * among them; or nothing was picked there.
 */
export type StrokeVerdict = "found" | "other" | "missed";

/** Whether a pedal or the bar brought a stroke's note to where the part says, and what is heard if not. */
export interface GlideJudged {
  /** The event of the part that moves the note. */
  eventId: string;
  toMidi: Midi;
  hasArrived: boolean;
  /** Where the note stands instead; null where it arrived, or nothing of it is heard any more. */
  heardMidi: Midi | null;
}

/** One stroke of the part, held against a take. */
export interface StrokeJudged {
  /** Of the stroke's event; where several begin together, of the first. */
  eventId: string;
  /** Of the record, as the part has it. */
  startSec: Seconds;
  /** What the part has picked there, rising. */
  notesMidi: Midi[];
  verdict: StrokeVerdict;
  /** What was heard in its place, rising; null unless the verdict is `other`. */
  heardMidi: Midi[] | null;
  /** Probability that these notes were played there, before one listens as likely as not; null where nothing was picked. */
  fit: Certainty | null;
  /**
   * How far after its time it was picked, by the take's clock, below 0 before it; null where nothing was, or where it
   * begins too softly to be timed.
   */
  lateSec: Seconds | null;
  /** Of its notes, in order of time; left out are those too short to be heard. */
  glides: GlideJudged[];
}

/** Something clearly picked that no stroke of the part asks for. */
export interface PlayedBesides {
  /** Of the record, as a stroke that the whole take's lateness is taken off of. */
  atSec: Seconds;
  /** What sounds there, rising. */
  heardMidi: Midi[];
}

/** Why a take is not clean. The order is that in which a teacher would say so. */
export type TakeFlaw =
  /** The part has no stroke there, so that nothing is held against anything. */
  | "noStrokes"
  /** Hardly anything is heard at all. */
  | "silent"
  | "missed"
  | "other"
  | "notArrived"
  | "besides"
  /** The whole take lies further off than playing behind or ahead explains. */
  | "farOff"
  /** Some stroke is off by more than the tolerance, once the median is taken off. */
  | "outOfTime"
  /** No stroke alone, but all together spread too far. */
  | "scattered";

/** A take, or a stretch of one, summed up. */
export interface TakeOverall {
  strokeCount: number;
  foundCount: number;
  otherCount: number;
  missedCount: number;
  /** How late the take is as a whole, which is what the device adds and how the player lies to the beat; null where nothing is timed. */
  medianLateSec: Seconds | null;
  /** Standard deviation of what remains, told robustly; null where fewer than two strokes are timed. */
  spreadSec: Seconds | null;
  isClean: boolean;
  /** Empty where it is clean. */
  flaws: TakeFlaw[];
}

/**
 * What is kept of a take that was held against the part, as plain JSON: about 140 bytes a stroke. Made by judgeTake.ts,
 * told in words by lib/client/takes/takeWords.ts, run in the page by lib/client/takes/judgeTakeInWorker.ts.
 */
export interface TakeJudged extends TakeOverall {
  version: number;
  /** The stretch of the record that was played over. */
  startSec: Seconds;
  endSec: Seconds;
  /** Of the record while the take was made, 1 = its own. */
  speed: number;
  /** In order of time. */
  strokes: StrokeJudged[];
  /** In order of time. */
  besides: PlayedBesides[];
}
