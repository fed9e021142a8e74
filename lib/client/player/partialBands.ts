import { midiToHertz } from "@/lib/units/pitch";
import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import { noteTrace, type TracedNote, traceMidiAt } from "../song/noteTrace";

/** A band of frequencies that is let through. */
export interface Band {
  /** The same from moment to moment, among the bands of the same notes. */
  id: number;
  frequencyHz: Hertz;
  /** 1 lets it through as it is, 0 not at all. */
  gain: number;
}

/** Partials of a string that carry most of its sound; those above the sixth lie too close to others' (local choice). */
const PARTIALS = 6;
/** Above this a band takes in more cymbals than string. */
const HIGHEST_HZ: Hertz = 7000;
/** A note's bands open this long before its pick and close this long after its end. */
export const BEFORE_SEC: Seconds = 0.12;
export const AFTER_SEC: Seconds = 0.08;
/** Bands are there, closed, this long before they open and after they close, so that they fade. */
const CLOSED_SEC: Seconds = 0.25;
/** Bands nearer to each other are one, so that what two notes share is not doubled. */
const SAME_BAND_RATIO = 2 ** (0.6 / 12);

/**
 * The bands that let notes through at a time: about the fundamental and the first partials of each that sounds then,
 * following its glides. Partials of a string are taken as harmonic. Notes that are far off have no bands: those of a
 * whole song at once are more than a browser can filter.
 * @param tuningCents how far the record stands from A4 = 440 Hz
 */
export function bandsAt(notes: readonly TracedNote[], timeSec: Seconds, tuningCents: Cents): Band[] {
  const bands: Band[] = [];
  for (const [index, note] of notes.entries()) {
    const awaySec = Math.max(note.startSec - BEFORE_SEC - timeSec, timeSec - note.endSec - AFTER_SEC);
    if (awaySec > CLOSED_SEC) continue;
    const isOpen = awaySec <= 0;
    const fundamentalHz = midiToHertz(traceMidiAt(noteTrace(note), timeSec), tuningCents);
    for (let partial = 1; partial <= PARTIALS; partial += 1) {
      const frequencyHz = fundamentalHz * partial;
      const isTaken = bands.some(
        (other) =>
          other.gain > 0 &&
          other.frequencyHz < frequencyHz * SAME_BAND_RATIO &&
          frequencyHz < other.frequencyHz * SAME_BAND_RATIO,
      );
      bands.push({
        id: index * PARTIALS + partial,
        frequencyHz: Math.min(frequencyHz, HIGHEST_HZ),
        gain: isOpen && !isTaken && frequencyHz <= HIGHEST_HZ ? 1 : 0,
      });
    }
  }
  return bands;
}
