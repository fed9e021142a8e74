import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import type { EndingName, Pluck } from "./Pluck";
import type { PitchPoint, Vibrato } from "./pitchTrack";
import { addPlucks } from "./pluckedString";
import type { Noise } from "./seededNoise";
import { TIMBRES } from "./timbres";

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
  /** How it is stopped; lifted off where left out. */
  ending?: EndingName;
}

const ATTACK_SEC: Seconds = 0.003;
/** The pedal opens by this factor as the string dies, over the time below. */
const PEDAL_OPENING = 0.9;
const PEDAL_OPENING_SEC: Seconds = 2.5;
const SCRAPE = 0.05;

/**
 * A note of the steel as a string plays it, with the player's foot: its volume pedal opens as the string dies, so that a
 * chord holds (playpedalsteel.com, how to use a volume pedal), or hides the pick by swelling in.
 * @param scrapeSeed of the pick's noise
 */
export function steelPluck(note: SteelNote, tuningCents: Cents, scrapeSeed: number): Pluck {
  const { startSec, endSec, pitch, vibrato, level, swellSec, ending = "lift" } = note;
  return {
    ...{ startSec, endSec, pitch, vibrato, level, ending, tuningCents, scrapeSeed },
    attackSec: Math.max(swellSec, ATTACK_SEC),
    opening: PEDAL_OPENING,
    openingSec: PEDAL_OPENING_SEC,
    scrape: swellSec === 0 ? SCRAPE : 0,
  };
}

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
  const plucks = notes.map((note) => steelPluck(note, tuningCents, Math.round((noise() + 1) * 2 ** 31)));
  addPlucks(out, sampleRateHz, TIMBRES.steel, plucks);
  return out;
}
