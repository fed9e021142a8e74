import { degreeToSemitones } from "@/lib/theory/interval";
import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import { midiToPitchClass, nearestPitch, withinOctave } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";

/** Notes that cannot be read; the message is in words for people. */
export class WantedPitchError extends Error {
  override readonly name = "WantedPitchError";
}

/** As many notes as a hand picks at once. */
export const MOST_NOTES = 3;

const NUMBER = /^([b#]?[1-7])('*|\.*)$/;

/**
 * The pitches of notes as they are typed: names with their octaves (`B4 G4`, C4 is middle C), or numbers of home and
 * names without one (`3 5`, `b7`, `G B`). Of these the first lies nearest to `near`, each further one next above the
 * one before; behind a number `'` is an octave higher and `.` an octave lower. A small b before a digit is a flat:
 * `b7` is the flat seventh, `B7` a note.
 * @param near a whole pitch
 * @throws WantedPitchError where something cannot be read, or there are more than three
 */
export function wantedPitches(text: string, { key, near }: { key: Key; near: Midi }): Midi[] {
  const plain = text.replaceAll("♭", "b").replaceAll("♯", "#").replaceAll("’", "'");
  const notes = plain.split(/[\s,]+/).filter((note) => note !== "");
  if (notes.length > MOST_NOTES)
    throw new WantedPitchError("One hand picks three strings at most: write one, two or three notes.");
  const midis: Midi[] = [];
  for (const note of notes) midis.push(pitchOf(note, { key, near, before: midis.at(-1) }));
  return midis;
}

function pitchOf(note: string, at: { key: Key; near: Midi; before: Midi | undefined }): Midi {
  const number = NUMBER.exec(note);
  if (number) {
    const [, degree = "", marks = ""] = number;
    const home = parsePitchName(at.key.tonic).pitchClass;
    const octaves = marks.startsWith(".") ? -marks.length : marks.length;
    return placed(midiToPitchClass(home + (degreeToSemitones(degree) ?? 0)), at) + 12 * octaves;
  }
  try {
    const { midi, pitchClass } = parsePitchName(note.charAt(0).toUpperCase() + note.slice(1));
    return midi ?? placed(pitchClass, at);
  } catch {
    throw new WantedPitchError(
      `"${note}" is no note here: write names as in B4, F#4, Eb5, or numbers of home as in 3 5, b7.`,
    );
  }
}

function placed(pitchClass: number, { near, before }: { near: Midi; before: Midi | undefined }): Midi {
  if (before === undefined) return nearestPitch(pitchClass, near);
  return before + (withinOctave(pitchClass - before) || 12);
}
