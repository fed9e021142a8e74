import type { Seconds } from "@/lib/units/quantities";

/**
 * What a stopping hand finds hard, as numbers; one unit is about a shift of the hand by one fret in half a second. What
 * counts follows H. Heijink and R. G. J. Meulenbroek, On the complexity of classical guitar playing, Journal of Motor
 * Behavior 34 (2002): the spread of the fingers, the way that the hand must travel, and how far up the neck it plays. The
 * sizes are a local proposal, to be tuned with players.
 */
export interface FingerWeights {
  /** From the index finger to the highest stop, millimetres: without a stretch; and as far as any hand reaches. */
  comfortMm: number;
  reachMm: number;
  /** Each millimetre beyond comfort; and each fret beyond those that the fingers stand over, see `fretsUnderHand`. */
  perStretchMm: number;
  perStretchFret: number;
  /** Each finger that is down: of equals the place with more open strings. */
  perFinger: number;
  /** One finger across several strings. */
  barre: number;
  /** Each fret of the lowest stop above the first; and each that the index finger stays behind it. */
  perPositionFret: number;
  perFretBehind: number;
  /** Each fret of the highest stop above `highFret`, where the body comes in the way. */
  highFret: number;
  perFretAboveHigh: number;
  /** Each string between those picked at once that must not sound. */
  perSkippedString: number;
  /** The hand leaves its position; and for each fret of its way. Both times haste. */
  shift: number;
  perShiftFret: number;
  /** Haste is `referenceSec / time available`, kept between the two bounds. */
  referenceSec: Seconds;
  leastTimeFactor: number;
  mostTimeFactor: number;
  /** Each string stopped that was not stopped there before. */
  perNewStop: number;
  /** The same shape of two fingers or more, moved along the neck or across it: the fingers need not be found anew. */
  sameShape: number;
  /** Each string between the strings picked before and those picked now. */
  perCrossedString: number;
  /** The hand carries the chord in force, as `chordUnderHand` says; or most of it. */
  chordMatched: number;
  chordNearlyMatched: number;
  /** A glide that was heard, and one finger or all of them sliding explains it. */
  slideHeard: number;
}

export const USUAL_FINGER_WEIGHTS: FingerWeights = {
  comfortMm: 100,
  reachMm: 132,
  perStretchMm: 0.06,
  perStretchFret: 0.6,
  perFinger: 0.1,
  barre: 0.8,
  perPositionFret: 0.04,
  perFretBehind: 0.02,
  highFret: 12,
  perFretAboveHigh: 0.15,
  perSkippedString: 0.1,
  shift: 0.8,
  perShiftFret: 0.25,
  referenceSec: 0.5,
  leastTimeFactor: 0.4,
  mostTimeFactor: 3,
  perNewStop: 0.1,
  sameShape: -0.3,
  perCrossedString: 0.1,
  chordMatched: -0.5,
  chordNearlyMatched: -0.25,
  slideHeard: -2,
};
