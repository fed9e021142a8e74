import type { Midi, Seconds } from "@/lib/units/quantities";

/** What is known of a note of a passage when it is asked whether it belongs with others. */
export interface WeighedNote {
  midi: Midi;
  /** Log odds that it sounds. */
  sounds: number;
  /** Of its partials, nats. */
  level: number;
  heard: number;
  /** How, and when from the start of the passage, its partials rise most. */
  rise: number;
  riseAtSec: Seconds;
  /** From where it comes, -1 to 1; null of a mono record. */
  balance: number | null;
}

/** Sizes of intervals that players pick together, or do not, by name. */
const INTERVALS: Readonly<Record<string, readonly number[]>> = {
  steps: [1, 2],
  thirds: [3, 4],
  fourth: [5],
  fifth: [7],
  sixths: [8, 9],
  octave: [12],
  tritoneSevenths: [6, 10, 11],
};
/** Intervals from a note up to its partials. */
const PARTIALS_AT = [12, 19, 24, 28];
const MOST_APART_SEC = 0.15;

/** What speaks for a note being played with some others by one player: begun together, as loud, from one place. */
export function belongingEvidence(note: WeighedNote, others: readonly WeighedNote[]): Record<string, number> {
  const apart = others.map(({ midi }) => note.midi - midi);
  const nearest = Math.min(...apart.map(Math.abs));
  const level = note.level - mean(others.map((other) => other.level));
  const rise = note.rise - mean(others.map((other) => other.rise));
  const atSec = middle(others.map(({ riseAtSec }) => riseAtSec));
  const evidence: Record<string, number> = {
    overtone: Number(apart.some((interval) => PARTIALS_AT.includes(interval))),
    undertone: Number(apart.some((interval) => PARTIALS_AT.includes(-interval))),
    apartSec: Math.min(MOST_APART_SEC, Math.abs(note.riseAtSec - atSec)),
    level,
    levelApart: Math.abs(level),
    rise,
    riseApart: Math.abs(rise),
    riseOwn: note.rise,
    heard: note.heard - mean(others.map((other) => other.heard)),
    sounds: note.sounds,
    othersSound: Math.min(...others.map(({ sounds }) => sounds)),
    others: others.length,
    lowest: Number(apart.every((interval) => interval < 0)),
    highest: Number(apart.every((interval) => interval > 0)),
    octaves: (note.midi - 60) / 12,
    ...placeEvidence(note, others),
  };
  for (const [name, sizes] of Object.entries(INTERVALS)) evidence[name] = Number(sizes.includes(nearest));
  return evidence;
}

function placeEvidence({ balance }: WeighedNote, others: readonly WeighedNote[]) {
  const places = others.flatMap((other) => other.balance ?? []);
  if (balance === null || places.length === 0) return { stereo: 0, placeApart: 0 };
  return { stereo: 1, placeApart: Math.abs(balance - mean(places)) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
}
