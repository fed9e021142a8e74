import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi, PitchClass } from "@/lib/units/quantities";
import { degreeToSemitones, MAJOR_SCALE_SEMITONES } from "./interval";
import type { Key } from "./key";
import { parsePitchName, spellPitchClass } from "./spelling";

/** A note as a degree of the major scale on the tonic. */
export interface ScaleDegree {
  accidental: "" | "b" | "#";
  /** `1` to `7`. */
  degree: string;
}

const LETTERS = "CDEFGAB";
/** Degrees above the tonic by semitone, as `spellPitchClass` names them. */
const USUAL_DEGREES = ["1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7"] as const;
/** The same notes where the chart spells them by the other letter. */
const OTHER_DEGREES = ["1", "#1", "2", "#2", "3", "4", "b5", "5", "#5", "6", "#6", "7"] as const;

/**
 * Degree of a note in a key. Degrees are always counted along the major scale on the tonic, in minor keys too,
 * so that b3 names the same distance everywhere. A note outside that scale keeps the letter it was written with
 * (C# in C is #1, Db is b2), except that b3, b6 and b7 of a minor key, being its own notes, stay so.
 */
export function noteToDegree(noteName: string, key: Key): ScaleDegree {
  const note = parsePitchName(noteName);
  const tonic = parsePitchName(key.tonic);
  const above = fold(note.pitchClass - tonic.pitchClass, 12);
  const usual = splitDegree(USUAL_DEGREES[above] ?? "1");
  const ownOfMinor = key.mode === "minor" && (above === 3 || above === 8 || above === 10);
  if (usual.accidental === "" || ownOfMinor) return usual;
  if (spellPitchClass(note.pitchClass, key) === noteName) return usual;
  const other = splitDegree(OTHER_DEGREES[above] ?? "1");
  const steps = fold(LETTERS.indexOf(note.letter) - LETTERS.indexOf(tonic.letter), 7);
  return Number(other.degree) === steps + 1 ? other : usual;
}

/** A pitch as a number of the key, `5` or `b7`, in whatever octave. */
export function midiToDegree(midi: Midi, key: Key): string {
  const { accidental, degree } = noteToDegree(spellPitchClass(midiToPitchClass(midi), key), key);
  return accidental + degree;
}

/**
 * The note that lies a degree above another, spelled by the letters between them; where that would take more
 * than one accidental, as the key spells that pitch.
 * @param degree as in `b7`; must be one that `degreeToSemitones` reads
 */
export function noteAbove(rootName: string, degree: string, key: Key): string {
  const root = parsePitchName(rootName);
  const pitchClass = fold(root.pitchClass + (degreeToSemitones(degree) ?? 0), 12);
  const steps = Number(degree.replace(/^[b#]+/, "")) - 1;
  const letter = LETTERS[fold(LETTERS.indexOf(root.letter) + steps, 7)] ?? "C";
  return spellWithLetter(pitchClass, letter) ?? spellPitchClass(pitchClass, key);
}

/** The degree, as Harte writes it (`b7`), at which one spelled note lies above another. */
export function degreeBetween(lowerName: string, upperName: string): string {
  const lower = parsePitchName(lowerName);
  const upper = parsePitchName(upperName);
  const above = fold(upper.pitchClass - lower.pitchClass, 12);
  const steps = fold(LETTERS.indexOf(upper.letter) - LETTERS.indexOf(lower.letter), 7);
  const alteration = nearestZero(above - (MAJOR_SCALE_SEMITONES[steps] ?? 0));
  if (Math.abs(alteration) > 1) return USUAL_DEGREES[above] ?? "1";
  return `${alteration < 0 ? "b" : alteration > 0 ? "#" : ""}${steps + 1}`;
}

/** The note spelled as the key has it where it belongs to the key's scale, else as it was written. */
export function respellInKey(noteName: string, key: Key): string {
  const degree = noteToDegree(noteName, key);
  return noteAbove(key.tonic, degree.accidental + degree.degree, key);
}

function splitDegree(text: string): ScaleDegree {
  const accidental = text.startsWith("b") ? "b" : text.startsWith("#") ? "#" : "";
  return { accidental, degree: text.slice(accidental.length) };
}

function spellWithLetter(pitchClass: PitchClass, letter: string): string | null {
  const alteration = nearestZero(pitchClass - parsePitchName(letter).pitchClass);
  if (Math.abs(alteration) > 1) return null;
  return letter + (alteration < 0 ? "b" : alteration > 0 ? "#" : "");
}

function nearestZero(semitones: number): number {
  return fold(semitones + 6, 12) - 6;
}

function fold(value: number, size: number): number {
  return ((value % size) + size) % size;
}
