import type { Certainty, GlideKind, HeardGlide, HeardNote } from "@/lib/hearing/Hearing";
import type { Midi, Semitones } from "@/lib/units/quantities";
import { centsText, clockText } from "../format/format";
import type { TracedNote } from "./noteTrace";

/** Nearer to the even scale than this, a note is said to be in tune (common practice, no source). */
const IN_TUNE_CENTS = 10;
/** Notes that begin this close together are picked together, as passageTraits counts strokes. */
const STROKE_SEC = 0.05;

const SIZES = [
  "less than a half step",
  "a half step",
  "a whole step",
  "a minor third",
  "a major third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a major sixth",
  "a minor seventh",
  "a major seventh",
  "an octave",
];
const UP: Record<GlideKind, string> = { pedal: "pulled up", bar: "slid up", unsure: "goes up" };
const DOWN: Record<GlideKind, string> = { pedal: "let down", bar: "slid down", unsure: "goes down" };
const BY: Record<GlideKind, string> = {
  pedal: "by a pedal or lever",
  bar: "by the bar",
  unsure: "by pedal or bar, not to be told",
};

/** How far a glide goes, in a player's words. */
export function glideSize(semitones: Semitones): string {
  const size = Math.round(Math.abs(semitones));
  return SIZES[size] ?? `${size} half steps`;
}

/** How a note moves: "pulled up a whole step at 0:02.30, by a pedal or lever"; empty where it stays. */
export function movesWords({ midi, glides }: Pick<TracedNote, "midi" | "glides">): string {
  return glides.map((glide, index) => oneMove(glide, glides[index - 1]?.toMidi ?? midi)).join(", then ");
}

function oneMove({ kind, toMidi, atSec }: HeardGlide, fromMidi: Midi): string {
  const verb = (toMidi >= fromMidi ? UP : DOWN)[kind];
  return `${verb} ${glideSize(toMidi - fromMidi)} at ${clockText(atSec, true)}, ${BY[kind]}`;
}

/** How far a note is off by itself, `+14 ¢ of the even scale`; empty where it is in tune. */
export function offWords(midi: Midi): string {
  const cents = (midi - Math.round(midi)) * 100;
  return Math.abs(cents) < IN_TUNE_CENTS ? "" : `${centsText(cents)} off the even scale`;
}

/** The notes picked together with one, itself among them, from high to low. */
export function pickedWith<N extends TracedNote>(notes: readonly N[], note: N): N[] {
  return notes
    .filter((each) => Math.abs(each.startSec - note.startSec) <= STROKE_SEC)
    .sort((a, b) => b.midi - a.midi);
}

/** As many notes as the bench places at once: the note and those of its stroke that lie nearest to it. */
export function handful<N extends TracedNote>(notes: readonly N[], note: N, most: number): N[] {
  return pickedWith(notes, note)
    .sort((a, b) => Math.abs(a.midi - note.midi) - Math.abs(b.midi - note.midi))
    .slice(0, most)
    .sort((a, b) => b.midi - a.midi);
}

/** A note of the shared song as the ear tells notes: those are the steel's, and one that a person wrote is sure. */
export function asHeard(note: TracedNote & { confidence: Certainty | null }): HeardNote {
  const { startSec, endSec, midi, glides, confidence } = note;
  return { startSec, endSec, midi, glides: [...glides], confidence: confidence ?? 1, steel: 1 };
}
