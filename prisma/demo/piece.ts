import type { Key } from "@/lib/theory/key";
import type { Beats, Cents, Midi, Seconds } from "@/lib/units/quantities";

/** One change of the piece: a chord number of the key, and for how many beats it holds. */
export interface PieceChange {
  number: string;
  beats: Beats;
}

/** A two-beat country tune of sixteen bars, written for the demo. */
export const PIECE = {
  tempoBpm: 108,
  beatsPerBar: 4,
  key: { tonic: "A", mode: "major" } satisfies Key,
  /** The record runs sharp, so that there is something to find. */
  tuningCents: 9 satisfies Cents,
  /** Silence before the first downbeat. */
  startSec: 0.45 satisfies Seconds,
  /** After the last bar, for the last chord and the room to die. */
  tailSec: 1.8 satisfies Seconds,
};

const whole = (number: string): PieceChange[] => [{ number, beats: 4 }];

/** Bar by bar. */
export const CHANGES: readonly (readonly PieceChange[])[] = [
  whole("1"),
  whole("1"),
  whole("4"),
  whole("1"),
  whole("6-"),
  whole("4"),
  whole("1"),
  whole("5"),
  whole("4"),
  whole("1"),
  whole("27"),
  whole("57"),
  whole("1"),
  whole("4"),
  [
    { number: "1", beats: 2 },
    { number: "5", beats: 2 },
  ],
  whole("1"),
];

/** What bass and guitar play on each change: the bass its root and the fifth below or above, then the strings. */
export const VOICINGS: Readonly<Record<string, { root: Midi; fifth: Midi; strings: readonly Midi[] }>> = {
  "1": { root: 33, fifth: 40, strings: [45, 52, 57, 61, 64] },
  "4": { root: 38, fifth: 33, strings: [50, 57, 62, 66] },
  "5": { root: 40, fifth: 35, strings: [47, 52, 56, 59, 64] },
  "57": { root: 40, fifth: 35, strings: [47, 52, 56, 62, 64] },
  "6-": { root: 30, fifth: 37, strings: [49, 54, 57, 61, 66] },
  "27": { root: 35, fifth: 42, strings: [47, 51, 57, 59, 66] },
};

/** Walks of the bass into the next bar: beat 3 and beat 4 of these bars. */
export const BASS_WALKS: Readonly<Record<number, readonly [Midi, Midi]>> = {
  2: [35, 37],
  5: [33, 35],
  8: [40, 38],
  13: [35, 37],
};

/** Strokes of the guitar in each half bar, in beats from its first: the backbeat down, a light stroke up after it. */
export const STRUM_PATTERN = [
  { atBeat: 1, lengthBeats: 0.6, stroke: "down", level: 0.9 },
  { atBeat: 1.5, lengthBeats: 0.35, stroke: "up", level: 0.4 },
] as const;

/** The drummer's half bar. */
export const DRUM_PATTERN = [
  { atBeat: 0, drum: "kick", level: 0.9 },
  { atBeat: 0, drum: "hat", level: 0.35 },
  { atBeat: 0.5, drum: "hat", level: 0.22 },
  { atBeat: 1, drum: "snare", level: 0.45 },
  { atBeat: 1, drum: "brush", level: 0.7 },
  { atBeat: 1, drum: "hat", level: 0.3 },
  { atBeat: 1.5, drum: "hat", level: 0.25 },
] as const;
