/**
 * Every number of the method for notes but the weights that are fitted (see noteOdds.ts), as data. "Set here" marks a
 * round value chosen on annotated recordings as a whole, never for one of them. Frames are the learned ear's, 23 ms.
 */

/** Peaks of the maps that are looked at; most of them turn out to be nothing. */
export const CANDIDATES = {
  onsetReach: 2,
  onsetAbove: 0.1,
  arrivalReach: 3,
  arrivalAbove: 0.08,
} as const;

/** Rise of a note's own partials. */
export const RISE = {
  partials: 5,
  /** Frames compared, counted from the pick, both ends included. */
  before: [2, 4],
  after: [1, 3],
  /** Amplitude taken as silence (-80 dB). */
  floor: 1e-4,
} as const;

/** When a candidate counts. */
export const ACCEPT = {
  /** Probability from which a pick is a note. Set here: F changes by a hundredth at most from 0.4 to 0.5. */
  pick: 0.43,
  /** Probability from which an arrival is a glide. Set here, on as broad a plateau from 0.3 to 0.4. */
  glide: 0.32,
  /** Probability from which the band is heard to strike what the steel picks. Set here, on a plateau from 0.4 to 0.5. */
  unison: 0.45,
} as const;

export const TRACE = {
  /** Under this the frame map says that a note is silent; so many such frames in a row end it. */
  soundsAbove: 0.3,
  silentFrames: 3,
  shortestSec: 0.05,
  /** A pitch is the mean over so many frames: about a second, several turns of any vibrato. */
  pitchFrames: 40,
  /** A pick and an arrival on one semitone nearer than this are one event, the likelier of the two. */
  sameEventFrames: 3,
  /** Semitones that a glide may span: an octave along the neck. */
  glideReach: 12,
  /** Semitones that it may span where the pitch it leaves is not heard to stop: what pedals pull. */
  unheardReach: 3,
  /** Arrivals within so many frames of the first count as one move. */
  togetherFrames: 3,
  /** Frames within which the note that moves is heard to leave its old pitch. */
  leaveFrames: 8,
} as const;

export const GLIDE_LENGTH = {
  /** Lengths told apart, from a quick pedal to a slow bar (common practice, no source). */
  lengthsSec: [0.03, 0.05, 0.08, 0.12, 0.18, 0.26, 0.38, 0.55],
  /** Spectra compared, one each step over the reach to both sides of the middle. */
  stepSec: 0.02,
  reachSec: 0.3,
  partials: [2, 3, 4, 5, 6, 8],
  /** Amplitude taken as silence (-80 dB). */
  floor: 1e-4,
} as const;
