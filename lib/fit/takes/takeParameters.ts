/**
 * Numbers by which takes are judged, as data. "Set here" marks a round value chosen on takes that were played from data
 * (tests/quality/takes), whose other seeds then measured it.
 */

/** How picks are found in a take. */
export const PICKS = {
  fftSize: 1024,
  /** 5.8 ms at the ear's rate. */
  hop: 128,
  lowestHz: 30,
  highestHz: 10000,
  /** Boeck & Widmer 2013: finer than a half step, so that the string picked after its neighbour is no vibrato of it. */
  bandsPerOctave: 24,
  compression: 1000,
  /** Boeck & Widmer 2013: the lag at which the window has risen to half its height. */
  lagFrames: 4,
  maximumReach: 1,
  /** A pick is the highest within these, and stands over the mean within the others (see takePicks.ts). */
  highestBeforeSec: 0.03,
  highestAfterSec: 0.03,
  meanBeforeSec: 0.1,
  meanAfterSec: 0.07,
  /** Over the mean, nats of a band. Set here. */
  over: 0.03,
  /** Nearer together than this are one: the strings of one stroke are met one after another. */
  togetherSec: 0.03,
  /** The curve peaks so much after the pick proper: median over rendered picks. Set here. */
  delaySec: 0.005,
  /** Spectra this far on either side tell how strong a pick is. */
  strengthReachSec: 0.03,
} as const;

/** Where in a take a stroke's pick is looked for, and what matching costs (see matchStrokes.ts). Set here. */
export const MATCHING = {
  /** The whole take may lie off by so much, seconds of the take. */
  farthestSec: 0.35,
  /** A stroke may lie off by so much beside that. */
  reachSec: 0.3,
  /** Asynchrony that costs 1. */
  apartSec: 0.05,
  /** A stroke without a pick. */
  strokeAlone: 4,
  /** A pick of usual strength without a stroke. */
  pickAlone: 1,
  /** No pick costs less or more by what it sounds. */
  surestNats: 3,
  /** A pick under this share of what is usual is hardly the player's: the record leaks into a microphone 20 dB down. */
  faintUnder: 0.2,
} as const;

/** How the notes of a pick are looked at. */
export const LOOK = {
  /** At most so much after the pick, at least so much although the next pick comes. */
  longestSec: 0.4,
  shortestSec: 0.12,
} as const;

/** How the notes of a pick are told from others. Set here. */
export const NOTES = {
  /** What reads better by so much, nats, was played instead. */
  betterBy: 2,
  /** Wanted notes that read worse than this are not heard, whatever else is not either. */
  heardFrom: -1,
  /**
   * A wanted note that is surer to sound than this, and not so much quieter than the loudest, nats, was not left out, however
   * well the others read without it.
   */
  absentUnder: 1,
  absentQuieterBy: 1.7,
  /** From these log odds on a note sounds clearly. */
  clearNats: 0,
  /** Clear notes are at most so much quieter than the loudest, nats. */
  quieterBy: 1.4,
} as const;

/** Strokes without a pick, and picks without a stroke. Set here. */
export const STRAY = {
  /** What a swell brings in rises so much about its time, nats, each note of it. */
  softRise: 0.7,
  /**
   * No notes of the player, at their loudest, are more than so much quieter than notes of the take are in the middle, nats
   * (14 dB): the record that leaks in is.
   */
  quieterBy: 1.6,
  /** A pick so strong beside what is usual is the player's, however soon its notes fade. */
  loudFrom: 0.45,
  /** What is picked besides is so strong beside what is usual in the take, */
  besidesFrom: 0.3,
  /** so much louder than what sounded before, nats, */
  besidesRise: 0.7,
  /** and so far from every pick of a stroke, whose strings are met one after another. */
  besidesApartSec: 0.09,
  /** What begins so little before a glide of the part or after it is the glide. */
  aboutGlideSec: 0.12,
  /** A take quieter than this as a whole, -66 dB of full scale, is silent. */
  silentUnder: 5e-4,
} as const;

/** Where a glide is looked for after it should have ended, seconds of the take. Set here. */
export const ARRIVAL = {
  afterSec: 0.06,
  shortestSec: 0.1,
  longestSec: 0.6,
  /** Log odds from which the pitch that was to be reached sounds. */
  soundsFrom: -1,
  /** Long windows still hold some of the way, so that it may be heard a little less than what it came from, nats. */
  weakerBy: 0.7,
} as const;

export const CLEAN = {
  /**
   * Once the median is taken off, no stroke may lie further off. Onsets of two players of a trio differ by 30 to
   * 50 ms, standard deviation (R. A. Rasch, "Synchronization in performed ensemble music", Acustica 43 (1979)): twice the upper figure. The 50 ms of
   * MIREX's onset and note tasks are a bound for machines that hear, not for hands.
   */
  apartSec: 0.1,
  /** Standard deviation of what remains: the upper figure of Rasch. */
  spreadSec: 0.05,
  /** The whole take may lie so late or early: further off nobody plays behind or ahead (set here). */
  medianSec: 0.15,
} as const;
