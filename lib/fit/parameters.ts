/**
 * Numbers of the method of fit but the fitted weights (fittedOdds.ts), as data. "Set here" marks a round value chosen over
 * annotated recordings as a whole, never for one of them.
 */

/** What both spectra of a passage share: 8 octaves from C1, three bins a semitone (Mauch & Dixon 2010). */
const SCALE = { lowestMidi: 24, semitones: 96, binsPerSemitone: 3 } as const;
/** Long windows tell pitch; 40 periods resolve a semitone. */
export const LONG = { ...SCALE, periods: 40, shortestWindow: 1024, longestWindow: 8192 } as const;
/** Short windows tell when. */
export const SHORT = { ...SCALE, periods: 12, shortestWindow: 512, longestWindow: 2048 } as const;

export const DICTIONARY = {
  /** E1, the lowest string of a bass, to C7. */
  lowestMidi: 28,
  highestMidi: 96,
  /**
   * Each semitone has a row in tune and one a little off on either side, which add up: a bar stops strings up to some
   * 30 cents off the grid, and vibrato is as wide.
   */
  detunings: [-0.3, 0, 0.3],
  partials: 16,
} as const;

export const SOLVING = { sparsity: 0.02, sweeps: 40, tolerance: 2e-3 } as const;
/** The same where one note is barred: begun with the coefficients of all, few sweeps are left to do. */
export const SOLVING_WITHOUT = { ...SOLVING, sweeps: 12 } as const;

export const FRAMES = {
  /** Samples from one frame of long windows to the next, at most so many frames a passage. */
  hop: 1024,
  most: 48,
  /** The pick itself is left out at the start, and the last moment at the end. */
  afterStartSec: 0.03,
  beforeEndSec: 0.01,
  /** A note that sounds for so long is heard, however long the passage. */
  bestSec: 0.2,
  /** An activation from which a frame counts as filled. Set here. */
  filledFrom: 0.15,
} as const;

export const RISES = {
  /** Samples from one frame of short windows to the next. */
  hop: 256,
  /** Seconds before the passage and after its start that are looked at. */
  beforeSec: 0.22,
  lengthSec: 0.5,
  /** When a note may begin, from the start of the passage. */
  earliestSec: -0.06,
  latestSec: 0.12,
  /** Frames compared, counted from the moment, both ends included. */
  before: [3, 8],
  after: [2, 6],
  partials: 5,
  /** Amplitude taken as silence (-80 dB). */
  floor: 1e-4,
} as const;

/** Amplitude taken as silence in long windows. */
export const SILENCE = 1e-7;
/** Where no bin stands above this (-100 dB, the record at -20 dB), no note sounds. */
export const SILENT_UNDER = 1e-5;
/** Semitones about the guess in which notes are looked for. */
export const REACH = 16;
/** No log odds count as more than this either way. */
export const SUREST_NATS = 7;
/** Log odds from which a note is looked at that the guess leaves out. Set here. */
export const LEFT_OUT_FROM = -3;
/** Log probability that something is left out, where nothing is likelier. Set here. */
export const LEAST_LEFT_OUT = -6;
