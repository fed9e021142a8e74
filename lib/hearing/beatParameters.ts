/** The numbers of beats and bars. "Set here" is meant as in the ear's other parameters. */

export const NOVELTY = {
  /** The local mean over this far each way is taken off onset strength. Set here. */
  meanReachSec: 0.4,
  /** Onset strength is divided by its local level over this far each way. Set here. */
  levelReachSec: 3,
  /** Share of the whole record's power that is added to the local one, so that silence is not blown up. */
  levelFloor: 0.05,
  ceiling: 3,
  /** Stretches compared before and after a moment for a change of harmony. Set here. */
  harmonyReachSec: 0.5,
  /** C2 to C6, counted from the bottom of the spectrum. */
  harmonyLowestSemitone: 12,
  harmonyHighestSemitone: 60,
  /** Level taken as silence, full scale = 1 (-80 dB). */
  silence: 1e-4,
} as const;

export const TEMPO = {
  slowestBpm: 40,
  fastestBpm: 220,
  /** Multiples of a period that count for it, the k-th with weight 1/k. Set here. */
  multiples: 4,
  /** Step of the periods tried: one hundredth. */
  periodStep: 1.01,
  /** Peaks whose relatives are tried as beat levels. */
  strongest: 3,
  ratios: [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3],
  /** Periods nearer than this (natural log of the ratio) are one. */
  sameRatio: 0.04,
} as const;

export const BEATS = {
  /** The period may leave its centre by this factor each way. Set here. */
  periodRange: 1.6,
  /** Cost of (ln period / centre) squared, a beat. */
  periodWeight: 5,
  /** Cost of (ln change of period) squared; Ellis 2007 uses 100 to 680 with unit-variance onsets. */
  changeWeight: 300,
  /** Largest change of period from one beat to the next. */
  changeReach: 0.08,
  onsetWeight: 1,
  /** Cost of breaking off and beginning anew, in onset strength: some beats' worth. Set here. */
  breakCost: 10,
  /** Ratios of periods that are levels of one metre, and how near in natural log a ratio counts as one. Set here. */
  levels: [3 / 2, 2, 3],
  levelWidth: 0.1,
} as const;

export const BEAT_LEVEL = {
  fewestBeats: 4,
  /** Each tracked chain is also tried moved on by these shares of a beat. */
  shifts: [0, 1 / 2, 1 / 3, 2 / 3],
  /** Middle of the preferred tempo: with the octave as unit, its weight 2 stands for a spread of half an octave. */
  preferredBpm: 105,
  fallbackBpm: 100,
  /** Beats at each end whose median interval carries the grid on to the ends of the record. */
  edgeBeats: 8,
  /** A beat held longer than so many is counted through. */
  longestHold: 2.5,
} as const;

/**
 * Weights of what speaks for a level of beats, fitted together as a conditional logit over 43 annotated recordings and
 * rounded (tests/quality/fitBeatLevel.ts); left out in elevenths, the recordings scored the same.
 * The tracker has changed since.
 */
export const LEVEL_WEIGHTS = {
  tempo: 2.2,
  onset: 1.4,
  onsetCaught: 1.2,
  harmonyCaught: 40,
  harmonyGroup: 26,
  lowGroup: 1.4,
} as const;

/**
 * The same where a learned ear hears beats too: the levels chosen have a mean beat F of .978 over the 43 recordings that
 * the weights were fitted to, and of .970 over those left out in elevenths; always the best level would have .992.
 */
export const LEARNED_LEVEL_WEIGHTS = {
  tempo: 1.2,
  harmonyCaught: 10.6,
  beat: 5.5,
  beatCaught: 5.7,
  downbeatCaught: 0.9,
} as const;

export const LEARNED_BEAT_LEVEL = {
  /** Share of the learned beats in the curve that beats are tracked on, and the height of a sure beat there. */
  share: 0.8,
  height: 2,
} as const;

/** How sure the beats are: fitted to annotated recordings and their thirds (tests/quality/fitBeatLevel.ts). */
export const BEATS_CERTAINTY = {
  bias: 0.3,
  oddsWeight: 1.15,
  /** No level is surer than so many nats. */
  most: 8,
  /** Chains tap alike where this share of their beats is as near as this. */
  alikeShare: 0.8,
  alikeSec: 0.07,
} as const;

/**
 * How sure the bars are: fitted in the same way, but for the slips, which are too rare there; set here. On recordings left
 * out, where few bars are wrong, they tell no more than the mean of all does (log loss .160 against .149).
 */
export const BARS_CERTAINTY = {
  bias: 2,
  marginWeight: 1,
  slipWeight: 10,
  /** No reading stands higher than this. */
  mostMargin: 1.5,
} as const;

/** How beats fall into two or three. Set here; recordings lie far to both sides, but a light swing (0.6) is told as straight. */
export const BEAT_DIVISION = {
  /** Shares of the beat about the half and the thirds. */
  half: { from: 0.44, to: 0.56 },
  thirds: [
    { from: 0.28, to: 0.4 },
    { from: 0.59, to: 0.72 },
  ],
  /** Added to both strengths, so that a few stray onsets decide nothing. */
  leastStrength: 0.1,
  leastRatio: 1.5,
} as const;

/** Where there is no steady beat. Set here; recordings in time lie far above. */
export const FREE_TIME = {
  /** Nats for being in time of a sure beat over one that is as good as none, and the probability that speaks for neither. */
  weight: 4,
  even: 0.45,
  /** Cost of going from free to time or back, nats. */
  changeCost: 3,
  shortestSec: 3,
} as const;

export const BARS = {
  /** Weights of the standardised curves in the accent of a beat. Set here. */
  harmonyWeight: 0.8,
  lowWeight: 0.5,
  onsetWeight: 0.1,
  changeWeight: 0.5,
  /**
   * Weight of the log odds of a downbeat, by a learned ear, and of the accents beside it. Set here: over annotated
   * recordings 1 to 1.5 and 0.12 to 0.5 hear the same bars.
   */
  learnedWeight: 1,
  signalShare: 0.25,
  /** No probability counts as nearer to 0 or 1 than this. */
  surest: 0.01,
  /** Cost of one slip in the bar, nats. */
  slipCost: 6,
  /**
   * Expected accents by place in the bar, and a cost a beat (nats) that states how rare the metre is: the
   * orders of strength are those of F. Lerdahl and R. Jackendoff, "A Generative Theory of Tonal Music" (1983),
   * the sizes are set here.
   */
  metres: [
    { accents: [1, -0.5, 0, -0.5], cost: 0 },
    { accents: [0.9, -0.45, -0.45], cost: 0.02 },
    { accents: [0.7, -0.7], cost: 0.12 },
    { accents: [1.2, -0.5, -0.5, 0.4, -0.3, -0.3], cost: 0.06 },
  ],
} as const;
