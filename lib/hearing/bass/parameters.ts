/** The numbers of the bass line. "Set here" is meant as in the ear's other parameters. */

/** The bass line. */
export const BASS = {
  /** Weights of a frame's evidence: neighbouring frames hear much the same, so each counts for less than one. Set here. */
  soundingWeight: 0.3,
  onsetWeight: 1,
  /**
   * Odds of an onset over those that a frame and pitch have before it is listened to, in nats: few frames hold one. Set
   * here.
   */
  onsetBias: 2,
  /** Odds count as no surer than this many nats. */
  surestOnset: 4,
  /** What a sure onset adds up to over neighbouring frames: it was taught as a triangle of this half width. */
  onsetArea: 1.6,
  /** Probabilities under this are all one. */
  floor: 0.01,
  /** Probability that a note begins on a beat, and within the beat at these shares of it. Set here. */
  beginOnBeat: 0.5,
  beginWithin: [
    { share: 1 / 2, probability: 0.3 },
    { share: 1 / 3, probability: 0.05 },
    { share: 2 / 3, probability: 0.1 },
  ],
  /** Notes a second that begin anywhere else. */
  beginAnywhere: 0.2,
  beginSpreadSec: 0.03,
  endPerFrame: 0.05,
  /**
   * How common intervals between neighbouring notes are, from the unison up to the octave: repeated notes, steps,
   * fourths, fifths and octaves lead in bass lines. Common practice, no source; sizes set here.
   */
  intervals: [12, 2, 3, 1.5, 1.5, 3, 0.5, 3, 0.5, 0.7, 0.7, 0.3, 1.5],
  wideInterval: 0.2,
  /** Pitches up to which a lowest sounding note is surely the bass, and from which it is surely not. */
  surelyBassTo: 45,
  neverBassFrom: 62,
  /**
   * The confidence of a note is its mean posterior to this power, times the ceiling: over annotated recordings that
   * is how often notes so sure were right.
   */
  confidencePower: 0.5,
  confidenceCeiling: 0.98,
} as const;

/**
 * The evidence for a bass line in the plain signal. Set here; over annotated recordings half to twice these values hear
 * within three hundredths the same.
 */
export const SIGNAL_BASS = {
  /** One in so many spectra is transcribed: ten a second. */
  spectraApart: 2,
  /** Frames of the onset curves to a frame of the evidence. */
  onsetFrames: 2,
  /** A pitch is as likely to sound as not at this activation and share of the strongest; power of its odds. */
  evenActivation: 0.3,
  evenShare: 0.3,
  steepness: 3,
  /** Its evidence counts for so much beside that of a learned ear. */
  trust: 0.5,
  /** Nats for an onset, by its strength, against what one costs. */
  strengthWeight: 2,
  strongestOnset: 2,
  onsetCost: 1,
  /** Share of onsets in all bands beside those in the low ones. */
  allShare: 0.3,
  /** Activations are compared so long before and after an onset; the log of their ratio counts, up to so much. */
  riseSec: 0.1,
  mostRise: 2,
  leastActivation: 0.05,
} as const;
