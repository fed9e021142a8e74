import type { Seconds } from "@/lib/units/quantities";

/**
 * What a player finds hard, as numbers. One unit is a little more than a move of the bar by one fret in half a second. The sizes
 * are a local proposal, to be tuned with players; sources are named where a direction of cost has one.
 */
export interface Weights {
  /** A fret of travel, up to `nearFrets`; and each further fret. Jumps are well trained: playpedalsteel.com, moving between positions. */
  barPerFret: number;
  nearFrets: number;
  barPerFarFret: number;
  /** Moving down is harder than up, the hand hides the lower frets: steelguitarforum.com t=270932 (B. Hyman 2014). */
  downFactor: number;
  /** Bar travel is multiplied by `referenceSec / time available`, kept between the two bounds. */
  referenceSec: Seconds;
  leastTimeFactor: number;
  mostTimeFactor: number;
  /**
   * A change pressed or taken to another stage between picks; let off, which needs no aim. Pedals moved at once count as
   * one.
   */
  perChange: number;
  perRelease: number;
  /** Each further pedal in the same motion of the foot; A with B is a trained move: pedalsteel.com tea/ank/ankle.html. */
  perFurtherPedal: number;
  /** The same where it is heard as a glide. */
  perGlidingChange: number;
  /** A change no longer needed that disturbs none of the strings now played: it may stay down. */
  perIdleChange: number;
  /** A lock thrown: a hand leaves the strings for it (from memory). */
  perLock: number;
  /** The left foot leaves its pair of pedals for another. */
  footMove: number;
  /** A pedal over which the foot does not rest: pedalsteel.com tea/ank/ankle.html. */
  footOffRest: number;
  /** The left knee goes left while the foot is on the third pedal or further right (from memory). */
  farLever: number;
  /** Each string that sounds only by a split-tuned combination: it is not on every guitar. */
  perSplitString: number;
  /**
   * Each pedal and each lever that is engaged, whether it was so before or not: of equals the plainer place.
   * Pedals are on every such guitar, levers differ: pedalsteel.fr workshop on copedents.
   */
  perEngagedPedal: number;
  perEngagedLever: number;
  /** Foot and knee at work at once. */
  leverWithPedal: number;
  /** The first stage of a change of two stages: found by feel. */
  halfStop: number;
  /**
   * The hand goes to a neighbouring grip, or to other strings of the `handStrings` neighbours that it lies over; to a grip
   * further off. Grips are fixed spreads: howcast.com 512242.
   */
  nextGrip: number;
  handStrings: number;
  otherGrip: number;
  /** Two or more strings that lie in none of the usual grips and are no octave pair. */
  unusualGrip: number;
  /**
   * Strings picked at once with thumb, index and middle finger, 4 with the ring finger (playpedalsteel.com practice-tips);
   * and each string beyond: strummed or rolled.
   */
  stringsPerPick: number;
  perStringTooMany: number;
  /** A pick wider than a hand spreads. */
  wideGrip: number;
  /** A pick in which a string nearer the player sounds higher than one further away. */
  crossedStrings: number;
  /**
   * Each fret below `nutFret` and each above `middleFret`: the body of playing lies between (common practice, no source);
   * above, the sound thins out and frets narrow. By the fret and without a step, so that a part lies alike in every key.
   */
  nutFret: number;
  perFretBelowNut: number;
  middleFret: number;
  perFretAboveMiddle: number;
  /** Each fret above `highFret`, where frets are narrow, besides (from memory). */
  highFret: number;
  perFretAboveHigh: number;
  /** Open strings: no vibrato, no slide; players avoid them: steelguitarforum.com t=111468. */
  openStrings: number;
  /** In a run of notes shorter than this, and in the keys of the open strings (E and A on E9), they cost nothing (same source). */
  openRunSec: Seconds;
  /** A slanted bar; over two frets; with its nose between two strings: above what a straight one costs (local proposal). */
  slant: number;
  steepSlant: number;
  splitSlant: number;
  /** So many times as much with pedals: closer strings, a longer bar: pedalsteelmusic.com/?p=807 (B. Hempker). */
  slantWithPedals: number;
  /** The position carries the chord in force; or most of it. */
  chordMatched: number;
  chordNearlyMatched: number;
  /** The chord of the position, as it is held, lies in home's scale: a box of home (steel forum t=106404, D. Doggett 2007). */
  homePosition: number;
  /** One voice was heard gliding against a held one, and the place explains it by a pedal or lever. */
  obliqueGlide: number;
  /** The same, where the bar moves and feet or knees hold one voice in its place: playpedalsteel.com, left foot technique. */
  slideWithChange: number;
  /** All voices were heard gliding alike, and the place explains it by the bar. */
  parallelGlide: number;
  /** A note that was heard to ring on must be stopped here: for each second of it, up to so many. */
  stoppedPerSec: number;
  stoppedMostSec: Seconds;
  /** A note that was heard to glide must be picked anew here, since no one string gives both its pitches. */
  brokenGlide: number;
}

export const USUAL_WEIGHTS: Weights = {
  barPerFret: 0.8,
  nearFrets: 3,
  barPerFarFret: 0.4,
  downFactor: 1.3,
  referenceSec: 0.5,
  leastTimeFactor: 0.4,
  mostTimeFactor: 3,
  perChange: 0.5,
  perRelease: 0.3,
  perFurtherPedal: 0.1,
  perGlidingChange: 0.3,
  perIdleChange: 0.1,
  perLock: 4,
  footMove: 1,
  footOffRest: 0.1,
  farLever: 1,
  perSplitString: 1.5,
  perEngagedPedal: 0.1,
  perEngagedLever: 0.5,
  leverWithPedal: 0.4,
  halfStop: 0.3,
  nextGrip: 0.4,
  handStrings: 4,
  otherGrip: 1,
  unusualGrip: 1.5,
  stringsPerPick: 3,
  perStringTooMany: 3,
  wideGrip: 2,
  crossedStrings: 0.5,
  nutFret: 3,
  perFretBelowNut: 0.1,
  middleFret: 10,
  perFretAboveMiddle: 0.15,
  highFret: 17,
  perFretAboveHigh: 0.15,
  openStrings: 2,
  openRunSec: 0.18,
  slant: 3,
  steepSlant: 1,
  splitSlant: 1,
  slantWithPedals: 1.5,
  chordMatched: -1,
  chordNearlyMatched: -0.5,
  homePosition: -0.3,
  obliqueGlide: -3,
  slideWithChange: -1.5,
  parallelGlide: -2,
  stoppedPerSec: 3,
  stoppedMostSec: 1,
  brokenGlide: 6,
};
