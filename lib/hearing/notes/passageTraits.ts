import { median } from "@/lib/dsp/running";
import type { Midi, Semitones } from "@/lib/units/quantities";
import type { GlideKind, HeardNote } from "../Hearing";

/** How many notes are picked together. */
export type Texture = "singles" | "pairs" | "chords" | "mixed";
/** Size of an interval as teachers name it, accidentals left aside. */
export type IntervalName =
  | "unisons"
  | "seconds"
  | "thirds"
  | "fourths"
  | "tritones"
  | "fifths"
  | "sixths"
  | "sevenths"
  | "octaves"
  | "wide intervals";
export type Motion = "still" | "stepwise" | "chromatic" | "leaping" | "steps and leaps";
export type Direction = "staying" | "up" | "down";

/** What a teacher would say of a passage, as data. */
export interface PassageTraits {
  texture: Texture;
  /** Of the pairs: the interval that two in three have, or null where none leads; and how far apart most lie. */
  pairs: { count: number; interval: IntervalName | null; spacing: "near" | "far" | "both" } | null;
  /** How the top line goes on, glides included. */
  motion: Motion;
  /** Where the passage as a whole goes on the neck. */
  direction: Direction;
  glides: Record<GlideKind, number>;
}

/** Notes picked within this are one stroke (a roll of the fingers is about so long; common practice, no source). */
const STROKE_SEC = 0.05;
/** What leads must make up this share. */
const MOST = 2 / 3;
/** A fourth is still near: the two strings lie side by side (common practice, no source). */
const NEAR_UP_TO = 5;
/** The middle of the last third lies this far from that of the first where a passage moves: a fourth. */
const MOVES_FROM: Semitones = 5;

const INTERVAL_NAMES: readonly IntervalName[] = [
  "unisons",
  "seconds",
  "seconds",
  "thirds",
  "thirds",
  "fourths",
  "tritones",
  "fifths",
  "sixths",
  "sixths",
  "sevenths",
  "sevenths",
  "octaves",
];

/** Notes by the stroke that picks them, in order of time, each from low to high. */
export function strokesOf(notes: readonly HeardNote[]): HeardNote[][] {
  const strokes: HeardNote[][] = [];
  for (const note of [...notes].sort((a, b) => a.startSec - b.startSec)) {
    const stroke = strokes.at(-1);
    if (stroke && note.startSec - stroke[0]!.startSec <= STROKE_SEC) stroke.push(note);
    else strokes.push([note]);
  }
  for (const stroke of strokes) stroke.sort((a, b) => a.midi - b.midi);
  return strokes;
}

/** The traits of the notes given, which are one player's; null where there are none. */
export function passageTraits(notes: readonly HeardNote[]): PassageTraits | null {
  if (notes.length === 0) return null;
  const strokes = strokesOf(notes);
  const line = topLine(strokes);
  const glides = { pedal: 0, bar: 0, unsure: 0 };
  for (const note of notes) for (const { kind } of note.glides) glides[kind] += 1;
  return {
    texture: textureOf(strokes),
    pairs: pairsOf(strokes.filter(({ length }) => length === 2)),
    motion: motionOf(line),
    direction: directionOf(line),
    glides,
  };
}

function share<T>(list: readonly T[], holds: (item: T) => boolean): number {
  return list.length === 0 ? 0 : list.filter(holds).length / list.length;
}

function textureOf(strokes: readonly HeardNote[][]): Texture {
  if (share(strokes, ({ length }) => length === 1) >= MOST) return "singles";
  if (share(strokes, ({ length }) => length === 2) >= MOST) return "pairs";
  return share(strokes, ({ length }) => length > 2) >= MOST ? "chords" : "mixed";
}

function pairsOf(pairs: readonly HeardNote[][]): PassageTraits["pairs"] {
  if (pairs.length === 0) return null;
  const sizes = pairs.map(([low, high]) => Math.round(high!.midi - low!.midi));
  const names = sizes.map((size) => INTERVAL_NAMES[size] ?? "wide intervals");
  const interval = names.find((name) => share(names, (other) => other === name) >= MOST) ?? null;
  const near = share(sizes, (size) => size <= NEAR_UP_TO);
  const spacing = near >= MOST ? "near" : near <= 1 - MOST ? "far" : "both";
  return { count: pairs.length, interval, spacing };
}

/** Pitches of the highest string of each stroke, with those that it glides to. */
function topLine(strokes: readonly HeardNote[][]): Midi[] {
  return strokes.flatMap((stroke) => {
    const top = stroke.at(-1)!;
    return [top.midi, ...top.glides.map(({ toMidi }) => toMidi)];
  });
}

function motionOf(line: readonly Midi[]): Motion {
  const steps = line.slice(1).map((midi, i) => Math.abs(Math.round(midi - line[i]!)));
  const moves = steps.filter((step) => step > 0);
  if (moves.length === 0) return "still";
  if (share(moves, (step) => step === 1) >= MOST && moves.length > 1) return "chromatic";
  if (share(moves, (step) => step <= 2) >= MOST) return "stepwise";
  return share(moves, (step) => step > 2) >= MOST ? "leaping" : "steps and leaps";
}

function directionOf(line: readonly Midi[]): Direction {
  const third = Math.max(1, Math.floor(line.length / 3));
  const way = median(line.slice(-third)) - median(line.slice(0, third));
  if (Math.abs(way) < MOVES_FROM) return "staying";
  return way > 0 ? "up" : "down";
}
