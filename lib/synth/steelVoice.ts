import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import type { PitchPoint, Vibrato } from "./pitchTrack";
import { addPluck, type StringTimbre } from "./pluckedString";
import type { Noise } from "./seededNoise";

/** One string of the steel from its pick until it is stopped. Pedals, levers and the bar only move its pitch. */
export interface SteelNote {
  startSec: Seconds;
  endSec: Seconds;
  /** Pitch along the note, points in ascending time. Strings move apart: each note has its own. */
  pitch: readonly PitchPoint[];
  /** Null for an open string, which no bar can shake. */
  vibrato: Vibrato | null;
  /** Loudness, 0 to 1. */
  level: number;
  /** Fade-in by the volume pedal; 0 lets the pick be heard. */
  swellSec: Seconds;
}

/** Bright wound and plain steel over a pickup near the changer, long to die (measures of ear, no source). */
const TIMBRE: StringTimbre = {
  pickPosition: 0.17,
  pickupPosition: 0.07,
  slope: 1.15,
  damping: 0.35,
  airDamping: 2.5e-7,
  brightestHz: 7500,
};
const ATTACK_SEC: Seconds = 0.003;
const RELEASE_SEC: Seconds = 0.035;
/** The pedal opens by this factor as the string dies, over the time below. */
const PEDAL_OPENING = 0.9;
const PEDAL_OPENING_SEC: Seconds = 2.5;
const PICK_SEC: Seconds = 0.006;
const PICK_LEVEL = 0.05;

/**
 * Renders the steel dry, in mono.
 * @param durationSec length of the result
 * @param noise for the scrape of the picks
 * @returns samples of about the notes' levels; sums of loud notes may pass 1, mixing takes care of that
 */
export function renderSteel(
  notes: readonly SteelNote[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  noise: Noise,
  tuningCents: Cents = 0,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  for (const note of notes) {
    const attackSec = Math.max(note.swellSec, ATTACK_SEC);
    addPluck(
      out,
      sampleRateHz,
      TIMBRE,
      { ...note, attackSec, releaseSec: RELEASE_SEC, pedalGain: openPedal },
      tuningCents,
    );
    if (note.swellSec === 0) addPick(out, sampleRateHz, note, noise);
  }
  return out;
}

/** Level added as the string decays, so that a chord holds (playpedalsteel.com, how to use a volume pedal). */
function openPedal(sinceSec: Seconds): number {
  return 1 + PEDAL_OPENING * Math.min(sinceSec / PEDAL_OPENING_SEC, 1);
}

/** A short scrape: noise less its running mean, so that little of it lies low. */
function addPick(out: Float32Array, sampleRateHz: Hertz, note: SteelNote, noise: Noise): void {
  const first = Math.max(0, Math.round(note.startSec * sampleRateHz));
  const count = Math.min(Math.round(PICK_SEC * sampleRateHz), out.length - first);
  let mean = 0;
  for (let index = 0; index < count; index += 1) {
    const sample = noise();
    mean += (sample - mean) * 0.3;
    const fade = 1 - index / count;
    out[first + index]! += (sample - mean) * fade * fade * PICK_LEVEL * note.level;
  }
}
