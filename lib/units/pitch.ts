import type { Cents, Hertz, Midi, PitchClass, Semitones } from "./quantities";

/** The reference that MIDI key 69 names when a record runs true (ISO 16: A4 = 440 Hz). */
export const CONCERT_A_HZ: Hertz = 440;

/**
 * Frequency of a MIDI pitch in twelve-tone equal temperament, f = 440 * 2^((m - 69) / 12).
 * @param midi pitch, fractional allowed
 * @param tuningCents how far the record as a whole stands from A4 = 440 Hz
 */
export function midiToHertz(midi: Midi, tuningCents: Cents = 0): Hertz {
  return CONCERT_A_HZ * 2 ** ((midi - 69 + tuningCents / 100) / 12);
}

/** MIDI pitch (fractional) of a frequency above 0 Hz; the inverse of {@link midiToHertz}. */
export function hertzToMidi(frequencyHz: Hertz, tuningCents: Cents = 0): Midi {
  return 69 + 12 * Math.log2(frequencyHz / CONCERT_A_HZ) - tuningCents / 100;
}

/** Interval from one frequency up to another, in cents: 1200 * log2(to / from). */
export function hertzRatioToCents(fromHz: Hertz, toHz: Hertz): Cents {
  return 1200 * Math.log2(toHz / fromHz);
}

/** Pitch class 0 (C) to 11 (B) of a MIDI pitch, rounded to the nearest key. */
export function midiToPitchClass(midi: Midi): PitchClass {
  return withinOctave(Math.round(midi));
}

/** Semitones folded into one octave, 0 up to but not including 12: of a pitch class and an interval, its pitch class. */
export function withinOctave(semitones: Semitones): PitchClass {
  return ((semitones % 12) + 12) % 12;
}

/** The lowest pitch of a class that does not lie below another whole pitch. */
export function lowestPitch(pitchClass: PitchClass, from: Midi): Midi {
  return from + midiToPitchClass(pitchClass - from);
}

/** The pitch of a class that lies nearest to another whole pitch; of two as near, the lower. */
export function nearestPitch(pitchClass: PitchClass, to: Midi): Midi {
  const up = midiToPitchClass(pitchClass - to);
  return up < 6 ? to + up : to + up - 12;
}
