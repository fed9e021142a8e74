import * as Note from "@tonaljs/note";
import { withinOctave } from "@/lib/units/pitch";
import type { Midi, PitchClass } from "@/lib/units/quantities";
import { C_MAJOR, type Key } from "./key";

/** A name such as `Eb` or `F#4`, taken apart. */
export interface PitchName {
  /** `A` to `G`. */
  letter: string;
  /** Semitones by which the accidentals move the letter: -1 for `b`, +1 for `#`. */
  alteration: number;
  pitchClass: PitchClass;
  /** MIDI pitch where the name carries an octave (scientific: C4 = 60), else null. */
  midi: Midi | null;
}

/** A pitch name that cannot be read. */
export class PitchNameError extends Error {
  override readonly name = "PitchNameError";
  constructor(readonly text: string) {
    super(`"${text}" is not a note name: write a letter A to G, then # or b, then an octave if any (F#4).`);
  }
}

/** Distance of every pitch class above the tonic, as the interval that names it: sharp fourth, else flats. */
const INTERVAL_ABOVE_TONIC = [
  "1P",
  "2m",
  "2M",
  "3m",
  "3M",
  "4P",
  "4A",
  "5P",
  "6m",
  "6M",
  "7m",
  "7M",
] as const;

/** Takes a note name apart. Throws {@link PitchNameError} when it is none. */
export function parsePitchName(text: string): PitchName {
  const plain = text.trim().replaceAll("♯", "#").replaceAll("♭", "b");
  const note = Note.get(plain);
  if (!/^[A-G](#{0,2}|b{0,2})-?\d*$/.test(plain) || note.empty) throw new PitchNameError(text);
  return { letter: note.letter, alteration: note.alt, pitchClass: note.chroma, midi: note.midi ?? null };
}

/**
 * Names a pitch class as players in that key write it: notes of the major scale by their letter, the others as
 * b2, b3, #4, b6 and b7 above the tonic; the same five serve minor keys. Never a double accidental: where one
 * would be due (b3 of Gb), the plain letter stands (A).
 * @param pitchClass 0 = C ... 11 = B; other integers are folded
 */
export function spellPitchClass(pitchClass: PitchClass, key: Key): string {
  const tonic = parsePitchName(key.tonic);
  const above = withinOctave(pitchClass - tonic.pitchClass);
  const interval = INTERVAL_ABOVE_TONIC[Math.round(above) % 12] ?? "1P";
  const name = Note.transpose(Note.pitchClass(key.tonic.trim()), interval);
  return Math.abs(Note.get(name).alt) > 1 ? Note.simplify(name) : name;
}

/**
 * Scientific name of a MIDI pitch (60 = C4), spelled for the key; a pitch between two keys takes the nearer.
 * The octave belongs to the letter: 59 is `B3`, or `Cb4` in Gb.
 */
export function midiToName(midi: Midi, key: Key = C_MAJOR): string {
  const nearest = Math.round(midi);
  const name = spellPitchClass(nearest, key);
  return `${name}${Math.floor((nearest - parsePitchName(name).alteration) / 12) - 1}`;
}
