import { withinOctave } from "@/lib/units/pitch";
import type { Midi, PitchClass, Semitones } from "@/lib/units/quantities";
import { compareNotes, inOrder } from "./compareNotes";
import { intervalWords } from "./intervalWords";

/** A fourth is still near: the two strings lie side by side (common practice, no source). */
const NEAR_UP_TO: Semitones = 5;
/** So near, one note may be put right by moving a fret or two. */
const STEP_UP_TO: Semitones = 2;

/** What may be told of beside the notes themselves; null or empty of what is not known, or covered itself. */
export interface AboutNotes {
  /** The top note of what is picked before. */
  before: Midi | null;
  /** By how much notes glide while they ring, all of them, in order of time. */
  glides: readonly Semitones[];
  /** Notes of the chord in force. */
  chord: readonly PitchClass[] | null;
}

/**
 * Hints at notes that are picked together, from the least telling on; none names one.
 * @param answer one note or more
 * @param guess the last one; null before any
 */
export function hintNotes(
  answer: readonly Midi[],
  guess: readonly Midi[] | null,
  about: AboutNotes,
): string[] {
  const right = inOrder(answer);
  const guessed = guess && inOrder(guess);
  if (guessed && compareNotes(guessed, right) === "same") return ["Your last guess holds: uncover it."];
  return [
    countWords(right),
    guessed ? towards(guessed, right) : null,
    glideWords(about.glides),
    beforeWords(right.at(-1)!, about.before),
    chordWords(right, about.chord),
    spacingWords(right),
    guessed ? nearerWords(guessed, right) : null,
  ].filter((hint) => hint !== null);
}

/** How many, and whether they lie near together. */
function countWords(midis: readonly Midi[]): string {
  const [low = 0, ...others] = midis;
  const high = others.at(-1);
  if (high === undefined) return "One note.";
  const count = midis.length === 2 ? "Two" : midis.length === 3 ? "Three" : `${midis.length}`;
  const isNear = others.every((midi, at) => midi - (midis[at] ?? low) <= NEAR_UP_TO);
  return `${count} notes, ${isNear ? "near together" : "far apart"}.`;
}

function towards(guess: readonly Midi[], answer: readonly Midi[]): string {
  if (guess.length < answer.length) return "More notes than that.";
  if (guess.length > answer.length) return "Fewer notes than that.";
  switch (compareNotes(guess, answer)) {
    case "octave":
      return "The right notes; listen to how high they lie.";
    case "part":
      return answer.length === 2
        ? `The ${guess[0] === answer[0] ? "lower" : "upper"} note is right.`
        : "Some of them are right.";
  }
  const difference = centre(answer) - centre(guess);
  if (difference === 0) return answer.length > 1 ? "About as high, but otherwise apart." : "Nearly that.";
  return difference > 0 ? "Higher than that." : "Lower than that.";
}

function glideWords(glides: readonly Semitones[]): string | null {
  const moved = glides.filter((step) => Math.round(step) !== 0);
  if (moved.length === 0) return null;
  const way = moved.every((step) => step > 0)
    ? "up"
    : moved.every((step) => step < 0)
      ? "down"
      : "up and down";
  return `It moves ${way} while it rings; name where it begins.`;
}

function beforeWords(top: Midi, before: Midi | null): string | null {
  if (before === null) return null;
  const step = top - Math.round(before);
  if (step === 0) return "The top note stays where it was before.";
  const by = Math.abs(step) <= STEP_UP_TO ? "steps" : "leaps";
  return `The top note ${by} ${step > 0 ? "up" : "down"} from the one before.`;
}

function chordWords(midis: readonly Midi[], chord: readonly PitchClass[] | null): string | null {
  if (!chord || chord.length === 0) return null;
  const inside = midis.filter((midi) => chord.includes(withinOctave(midi))).length;
  if (inside === midis.length)
    return midis.length === 1 ? "It is a note of the chord." : "All are notes of the chord.";
  if (inside === 0)
    return midis.length === 1 ? "It is no note of the chord." : "None is a note of the chord.";
  return "Not all of them are notes of the chord.";
}

function spacingWords(midis: readonly Midi[]): string | null {
  if (midis.length < 2) return null;
  const sizes = midis.slice(1).map((midi, at) => intervalWords(midi - midis[at]!));
  return midis.length === 2
    ? `They lie ${sizes[0]} apart.`
    : `From the lowest up they lie ${sizes.join(", then ")} apart.`;
}

function nearerWords(guess: readonly Midi[], answer: readonly Midi[]): string | null {
  const away = Math.abs(answer.at(-1)! - guess.at(-1)!);
  if (away === 0) return null;
  return away <= STEP_UP_TO
    ? "The top note lies within a whole step of yours."
    : away <= NEAR_UP_TO
      ? "The top note lies within a fourth of yours."
      : away <= 12
        ? "The top note lies within an octave of yours."
        : "The top note lies more than an octave from yours.";
}

function centre(midis: readonly Midi[]): number {
  return midis.reduce((sum, midi) => sum + midi, 0) / midis.length;
}
