import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";
import { addPluck, type StringTimbre } from "./pluckedString";

/** One stroke across the strings of an acoustic guitar. */
export interface Strum {
  startSec: Seconds;
  /** When the hand damps the strings. */
  endSec: Seconds;
  /** Pitches of the strings struck, lowest first. */
  midis: readonly Midi[];
  /** Down strokes meet the lowest string first, up strokes the highest. */
  stroke: "down" | "up";
  /** Loudness, 0 to 1. */
  level: number;
}

/** Bronze-wound strings near the sound hole (measures of ear, no source). */
const TIMBRE: StringTimbre = {
  pickPosition: 0.21,
  pickupPosition: null,
  slope: 0.95,
  damping: 1.6,
  airDamping: 8e-7,
  brightestHz: 9500,
};
/** From one string to the next. */
const STRING_STEP_SEC: Seconds = 0.009;

/** Renders strums dry, in mono. */
export function renderStrums(
  strums: readonly Strum[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  tuningCents: Cents = 0,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  for (const strum of strums) {
    for (const { startSec, midi } of struckStrings(strum)) {
      const pluck = {
        startSec,
        endSec: Math.max(strum.endSec, startSec + 0.02),
        pitch: [{ timeSec: startSec, midi }],
        vibrato: null,
        level: strum.level / Math.sqrt(strum.midis.length),
        attackSec: 0.002,
        releaseSec: 0.07,
      };
      addPluck(out, sampleRateHz, TIMBRE, pluck, tuningCents);
    }
  }
  return out;
}

/** When each string of a stroke is met, in that order. */
export function struckStrings({ startSec, midis, stroke }: Strum): { startSec: Seconds; midi: Midi }[] {
  const order = stroke === "down" ? midis : [...midis].reverse();
  return order.map((midi, place) => ({ startSec: startSec + place * STRING_STEP_SEC, midi }));
}
