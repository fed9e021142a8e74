/** The numbers of chords, keys and basses. "Set here" is meant as in the ear's other parameters. */

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
  /** Nats for a tonic chord that its dominant, or dominant seventh, resolves to; first and last. */
  cadence: 0.3,
  seventhCadence: 0.5,
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
