import { type Chord, parseHarte } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { scaleOf } from "@/lib/theory/scale";
import { parsePitchName } from "@/lib/theory/spelling";
import { nearestPitch, withinOctave } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";
import type { Comparison } from "./Comparison";
import { compareChords, thirdOf } from "./compareChords";
import { intervalWords } from "./intervalWords";

/** What may be told of beside the chord itself; null or empty of what is not known, or covered itself. */
export interface AboutChord {
  /** The chord before it, a Harte label. */
  before: string | null;
  /** The bass, from the note before the change on, in order of time. */
  bass: readonly Midi[];
  home: Key | null;
}

/**
 * Hints at a chord, from the least telling on; none names it, by letter or by number.
 * @param guess the last one, a Harte label; null before any
 * @throws HarteError on a label that cannot be read
 */
export function hintChords(answer: string, guess: string | null, about: AboutChord): string[] {
  const chord = parseHarte(answer);
  if (!chord) return ["Listen whether a chord is played there at all."];
  const comparison = guess === null ? null : compareChords(guess, answer);
  if (comparison === "same" || comparison === "enharmonic") return ["Your last guess holds: uncover it."];
  const guessed = guess === null ? null : parseHarte(guess);
  return [
    bassWords(about.bass),
    kindWords(chord),
    guessed && comparison ? towards(comparison, guessed, chord) : null,
    homeWords(chord, about.home),
    stepWords(chord, about.before),
    slashWords(chord),
    colourWords(chord),
  ].filter((hint) => hint !== null);
}

/** How the bass goes: nothing of a single note. */
export function bassWords(bass: readonly Midi[]): string | null {
  const steps = bass.slice(1).map((midi, at) => midi - bass[at]!);
  if (steps.length === 0) return null;
  const sizes = steps.map(Math.abs);
  if (sizes.every((size) => size === 0)) return "The bass stays on one note.";
  const moving = steps.filter((step) => step !== 0);
  const way = moving.every((step) => step > 0)
    ? " up"
    : moving.every((step) => step < 0)
      ? " down"
      : ", up and down";
  if (moving.every((step) => Math.abs(step) === 1)) return `The bass moves by half steps${way}.`;
  if (moving.every((step) => Math.abs(step) <= 2)) return `The bass moves by steps${way}.`;
  if (moving.every((step) => Math.abs(step) > 2)) return `The bass leaps${way}.`;
  return "The bass mixes steps and leaps.";
}

function kindWords(chord: Chord): string {
  const third = thirdOf(chord);
  if (third === "neither") return "It is neither major nor minor: the third is wanting or held back.";
  return `It sounds ${third}.`;
}

function towards(comparison: Comparison, guess: Chord, answer: Chord): string {
  switch (comparison) {
    case "bass":
      return "The chord is right: listen to the bass alone.";
    case "added":
      return "The triad is right: listen for the note that is added.";
    case "kind":
      return "The root is right; the third or the fifth is not.";
    case "sameNotes":
      return "You have its notes; the bass says by which of them it is called.";
  }
  const shared = guess.pitchClasses.filter((each) => answer.pitchClasses.includes(each)).length;
  if (shared === 0) return "Your guess has no note in common with it.";
  return `Your guess has ${shared === 1 ? "one note" : `${shared} notes`} in common with it.`;
}

/** Whether it is one of the three plain chords of home, or belongs to home at all. */
function homeWords(chord: Chord, home: Key | null): string | null {
  if (!home) return null;
  const above = withinOctave(chord.rootPitchClass - parsePitchName(home.tonic).pitchClass);
  if ([0, 5, 7].includes(above)) return "Its root is that of the 1, the 4 or the 5.";
  if (!scaleOf(home).includes(chord.rootPitchClass)) return "Its root lies outside home's scale.";
  return "Its root is in home's scale, and not that of the 1, the 4 or the 5.";
}

/** How its root lies to that of the chord before. */
function stepWords(chord: Chord, before: string | null): string | null {
  const last = before === null ? null : parseHarte(before);
  if (!last) return null;
  const step = nearestPitch(chord.rootPitchClass, last.rootPitchClass) - last.rootPitchClass;
  if (step === 0) return "The root stays that of the chord before.";
  return `From the chord before, the root goes ${intervalWords(step)} ${step > 0 ? "up" : "down"}.`;
}

/** Where the bass plays another note than the root. */
function slashWords({ rootPitchClass, bassPitchClass, pitchClasses }: Chord): string | null {
  if (bassPitchClass === rootPitchClass) return null;
  return pitchClasses.includes(bassPitchClass)
    ? "The bass plays another note of the chord than its root."
    : "The bass plays a note that the chord has not.";
}

/** How many notes it has beyond a triad. */
function colourWords({ pitchClasses }: Chord): string {
  if (pitchClasses.length < 3) return "It has no more than two different notes.";
  if (pitchClasses.length === 3) return "It is a plain chord of three notes.";
  return `It has ${pitchClasses.length} different notes.`;
}
