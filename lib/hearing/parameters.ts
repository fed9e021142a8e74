/**
 * Numbers of the front end, as data; those of beats, of harmony, of the bass line and of the form stand in files of
 * their own. "Set here" marks a value chosen by trying a few round numbers on
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

export const LEVEL = {
  /** Root-mean-square level to which every record is brought, full scale = 1. */
  rms: 0.1,
  /** Under this level (-120 dB) a record is silent. */
  silence: 1e-6,
  /** A record whose channels differ by less than this share (-60 dB) of what they have in common is heard as mono. Set here. */
  stereoFrom: 1e-3,
  /** Below, too little of the treble is left to hear chords by. */
  lowestRateHz: 4000,
} as const;
