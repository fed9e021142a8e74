/**
 * The quantities Liftbook reckons in. They are plain numbers at run time; the alias says the unit and every
 * field that holds one repeats it in its name (`startSec`, `tuningCents`), so that no number travels bare.
 */

/** Seconds of the record, from its first sample. */
export type Seconds = number;
/** Beats of the song's own grid; fractions lie between two beats. */
export type Beats = number;
/** Cycles a second. */
export type Hertz = number;
/** Hundredths of an equal-tempered semitone. */
export type Cents = number;
/** MIDI note number, 60 = middle C (C4), 69 = A4; fractional where the pitch lies between two keys. */
export type Midi = number;
/** Whole or fractional equal-tempered semitones. */
export type Semitones = number;
/** Pitch class, 0 = C ... 11 = B. */
export type PitchClass = number;
/** Milliseconds since the Unix epoch. */
export type EpochMs = number;
