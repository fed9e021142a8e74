import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";
import { addPluck, type StringTimbre } from "./pluckedString";

/** One note of the bass. */
export interface BassNote {
  startSec: Seconds;
  endSec: Seconds;
  midi: Midi;
  /** Loudness, 0 to 1. */
  level: number;
}

/** A round, dark string played with the finger (measures of ear, no source). */
const TIMBRE: StringTimbre = {
  pickPosition: 0.28,
  pickupPosition: 0.22,
  slope: 1.5,
  damping: 1.3,
  airDamping: 4e-6,
  brightestHz: 1800,
};

/** Renders the bass dry, in mono. */
export function renderBass(
  notes: readonly BassNote[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  tuningCents: Cents = 0,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  for (const { startSec, endSec, midi, level } of notes) {
    const pitch = [{ timeSec: startSec, midi }];
    const pluck = { startSec, endSec, pitch, vibrato: null, level, attackSec: 0.008, releaseSec: 0.06 };
    addPluck(out, sampleRateHz, TIMBRE, pluck, tuningCents);
  }
  return out;
}
