/**
 * Every number of the ear's method, as data. "Set here" marks a value chosen by trying a few round numbers on
 * annotated recordings as a whole, never for one of them.
 */

/** Rate at which the record is heard, in Hz: half of the common 44.1 kHz keeps all pitch up to 11 kHz. */
export const HEARING_RATE_HZ = 22050;

export const TUNING = {
  /** 0.37 s: resolves neighbouring keys from about 90 Hz up. */
  fftSize: 8192,
  hop: 4096,
  /** Below, neighbouring keys blur; above, partials of strings run sharp. Set here. */
  lowestHz: 150,
  highestHz: 1600,
  /** Peaks under this share of the frame's strongest are left out (-40 dB). Set here. */
  peakFloor: 0.01,
  /** Width of the smoothing over the circle of 100 cents. Set here. */
  smoothingCents: 10,
  /** The confidence is the probability of an error up to this. */
  rightCents: 5,
  /** Independent peaks that a record is worth, whatever its length. Set here: 50 to 200 say much the same. */
  peaksWorth: 100,
} as const;

export const ONSETS = {
  /** 46 ms at 22.05 kHz, as Boeck & Widmer 2013 use 2048 samples at 44.1 kHz. */
  fftSize: 1024,
  hop: 256,
  /** Boeck & Widmer 2013: 30 Hz to 17 kHz at 24 bands an octave; half as fine here, up to 10 kHz. */
  lowestHz: 30,
  highestHz: 10000,
  bandsPerOctave: 12,
  /** Set here. */
  compression: 100,
  /** Boeck & Widmer 2013: the lag at which the window has risen to half its height. */
  lagFrames: 2,
  /** Boeck & Widmer 2013: maximum over three bands. */
  maximumReach: 1,
  /** The curve peaks this much after the onset proper: median over annotated recordings. */
  delaySec: 0.011,
  /** Bass and bass drum lie below. */
  lowBelowHz: 160,
} as const;

export const SPECTRUM = {
  /** C1: the lowest note of a five-string bass is B0, whose second harmonic is in range. */
  lowestMidi: 24,
  semitones: 96,
  /** Mauch & Dixon 2010: three bins a semitone. */
  binsPerSemitone: 3,
  /** Resolves a semitone (Q 34 is the constant Q of 24 bins an octave, Brown 1991). Set here. */
  periods: 40,
  shortestWindow: 2048,
  longestWindow: 8192,
  hop: 1024,
} as const;

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
 * rounded (tests/quality/fitBeatLevel.ts); left out in elevenths, the recordings score the same.
 */
export const LEVEL_WEIGHTS = {
  tempo: 2.2,
  onset: 1.4,
  onsetCaught: 1.2,
  harmonyCaught: 40,
  harmonyGroup: 26,
  lowGroup: 1.4,
} as const;

/** The same where a learned ear hears beats too. */
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

/** How sure the bars are: fitted in the same way, but for the slips, which are too rare there; set here. */
export const BARS_CERTAINTY = {
  bias: 2,
  marginWeight: 1,
  slipWeight: 10,
  /** No reading stands higher than this. */
  mostMargin: 1.5,
} as const;

/** How beats fall into two or three. Set here; recordings lie far to both sides. */
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

export const NOTES = {
  /** E1, the lowest string of a bass, to C7. */
  lowestMidi: 28,
  highestMidi: 96,
  /** Mauch & Dixon 2010: 20 partials of amplitude s^(k - 1), with s from 0.6 to 0.9. */
  partials: 20,
  partialDecay: 0.7,
  /** Bins farther from a partial than this see nothing of it. */
  partialReachSemitones: 2,
  /** Power of the local spread that the spectrum is divided by; 1 is Mauch & Dixon's standardisation. Set here. */
  whitening: 0.7,
  silence: 1e-6,
  /** Taken off every activation: a little L1 cost keeps weak ghosts at 0. Set here. */
  sparsity: 0.02,
  sweeps: 60,
  tolerance: 1e-3,
} as const;

export const CHROMA = {
  /** Magnitude of silence. */
  silence: 1e-7,
  /** Power that evens out loud and soft notes. Set here. */
  compression: 0.7,
  /** MIDI pitches at which the bass and treble profiles stand and fall, after the profiles of Mauch's thesis. */
  bassFullTo: 43,
  bassEnd: 55,
  trebleStart: 40,
  trebleFullFrom: 50,
  trebleFullTo: 84,
  trebleEnd: 96,
} as const;

export const VOCABULARY = {
  /**
   * Qualities told apart, with the log of how common each is before a key is known; the order follows the
   * counts of popular-song corpora (J. A. Burgoyne, J. Wild and I. Fujinaga, "An expert ground truth set for
   * audio chord recognition and music analysis", ISMIR 2011), sizes set here.
   */
  qualities: [
    { quality: "maj", logPrior: 0 },
    { quality: "min", logPrior: -0.7 },
    { quality: "7", logPrior: -1.6 },
    { quality: "min7", logPrior: -2 },
    { quality: "maj7", logPrior: -2.4 },
    { quality: "sus4", logPrior: -2.6 },
    { quality: "dim", logPrior: -3.4 },
    { quality: "sus2", logPrior: -3.6 },
    { quality: "maj6", logPrior: -3.6 },
    { quality: "aug", logPrior: -4.4 },
  ],
  /** Of these, the ones that only a learned ear tells apart. */
  learnedOnly: ["sus2", "maj6", "aug"] as readonly string[],
  /** The same for no chord. */
  noChordLogPrior: -3,
} as const;

export const CHORD_FIT = {
  /** Weights of the treble and bass cosines in nats a half beat. Set here. */
  trebleWeight: 10,
  bassWeight: 5,
  /** Heights of root, third, fifth and seventh in the templates. */
  trebleTones: [1, 1, 1, 1],
  bassTones: [1, 0.5, 0.6, 0.4],
  /**
   * Nats a half beat taken off the rarer qualities: a fourth note or a bent third fits ghosts and passing
   * notes, which recur in stretch after stretch, so a prior at the change alone cannot weigh it up. Set here.
   */
  costs: { "7": 0.3, min7: 0.6, maj7: 0.9, sus4: 1, dim: 1, sus2: 1, maj6: 1, aug: 1 } as Partial<
    Record<string, number>
  >,
  /** Log-likelihood of what is not to be heard. */
  outOfReach: -1000,
  /** The same cosines of flat chroma, for no chord, as shares of the weights above. */
  noChordTreble: 1.1,
  noChordBass: 0.6,
  /** A stretch this far under the loudest one is silence (-50 dB). */
  silenceShare: 0.003,
} as const;

/** How the chords that a learned ear hears are pooled with those that fit the chroma. */
export const LEARNED_CHORDS = {
  /**
   * Nats a half beat for the mean log probability that the network gives, and factor on the fit of the chroma. Set
   * here: over annotated recordings 2.5 to 5 hears within half a hundredth the same, and without the chroma worse.
   */
  networkWeight: 3.5,
  signalWeight: 1.4,
  /** Probabilities under this are all one: the network is surer than it should be. */
  floor: 1e-4,
} as const;

export const CHANGES = {
  /** Probability that a chord begins between beats, there ahead of a strong beat, and on each kind of beat. Set here. */
  onOffBeat: 0.005,
  onPush: 0.015,
  onBeat: 0.02,
  onMidBar: 0.07,
  onDownbeat: 0.25,
  /** Log weight of a chord that lasts 0, 1, 2 and more beats, counted from the beat it leads to. Set here. */
  logLengths: [-3, -0.5, 0],
  /** Stretches of the longest segment; longer chords are joined of several. */
  longest: 32,
  /** Cuts nearer than this to another are left out. */
  shortestSec: 0.05,
} as const;

export const CHORD_MOVES = {
  /** How much likelier a chord is whose root often, or sometimes, follows the one before; of a leading chord's goal. */
  often: 2,
  sometimes: 1.4,
  leading: 3,
  /** Probability that a segment is followed by another of the same chord. */
  again: 0.05,
} as const;

export const REPEATS = {
  /** Share of what a stretch says that it takes from the mean over all that play the same. Set here. */
  share: 0.5,
} as const;

/** How sure the chords are. */
export const CHORD_CERTAINTY = {
  /**
   * All log weights are divided by this for the posteriors (temperature scaling: C. Guo, G. Pleiss, Y. Sun and K.
   * Weinberger, "On calibration of modern neural networks", ICML 2017): neighbouring stretches hear much the same, so
   * a chord is worth the evidence of fewer. Set by the likelihood of what was right, over annotated recordings; of 5, 6
   * and 7, ten of eleven cross-validation folds choose 6.
   */
  temperature: 6,
  /** The same where the plain signal is heard alone, which says less at once. */
  signalTemperature: 2,
} as const;

export const HOMES = {
  /** Share of the plain prior mixed into a key's chords, so that no chord is ruled out. Set here. */
  plainShare: 0.15,
  /** Weight of bass against treble in the pitch classes that the key answers for. */
  bassShare: 0.5,
  /** Nats a beat for the correlation with the key's profile, for the log probability of the chord, and for the tonic in the bass. Set here. */
  profileWeight: 0.4,
  chordWeight: 0.2,
  tonicBassWeight: 0.1,
  /** Share of the log probability of each chord after the one before. Set here. */
  moveWeight: 0.3,
  /** Nats for a tonic chord that its dominant, or dominant seventh, resolves to; on a downbeat; first and last. */
  cadence: 0.3,
  seventhCadence: 0.5,
  onDownbeat: 0,
  firstChord: 1,
  lastChord: 1,
  /** Log weight of a change of key on a downbeat and on another beat. Set here. */
  logOnDownbeat: -5,
  logOnBeat: -8,
  /** Keys between two changes that last fewer beats than this are rarer by so many nats. */
  phraseBeats: 16,
  logShort: -4,
  /** How much likelier the same mode a half or whole step up is than another key. Common practice, no source. */
  stepUp: 4,
} as const;

/** How sure the homes are. */
export const KEY_CERTAINTY = {
  /** As at CHORD_CERTAINTY; over annotated recordings 1 to 2 make what was right about as likely. */
  temperature: 1.5,
} as const;

export const INVERSION = {
  /** How often a chord begins with its root, third (or fourth), fifth and seventh held in the bass. Set here. */
  held: [0.9, 0.06, 0.03, 0.01],
  /** What the bass moves on to under a chord that lasts; to the fifth it goes and returns, as a rule. Set here. */
  movedTo: [0.9, 0.06, 0.0001, 0.02],
  /** What it plays meanwhile: while it holds the root, root, third, fifth and seventh; while it holds another, those. */
  whileRootHeld: [0.6, 0.06, 0.22, 0.04],
  whileOtherHeld: [0.06, 0.015, 0.015, 0.015],
  heldShare: 0.9,
  /** Nats a beat for the log probability of what is heard in the bass. Set here. */
  weight: 5,
  /** Probability that the bass moves to hold another tone under the same chord. Set here. */
  moveBetweenBeats: 0.0005,
  moveOnBeat: 0.005,
  moveOnStrongBeat: 0.02,
  /** Under one chord, a tone held for fewer beats than this is rarer by so many nats: it passes, as a rule. */
  shortBeats: 2.5,
  logShort: -6,
  /** Share of the bass chroma of the plain signal that is not believed. */
  signalDoubt: 0.3,
} as const;

export const LEVEL = {
  /** Root-mean-square level to which every record is brought, full scale = 1. */
  rms: 0.1,
  /** Under this level (-120 dB) a record is silent. */
  silence: 1e-6,
  /** Below, too little of the treble is left to hear chords by. */
  lowestRateHz: 4000,
} as const;
