import type { Cents, Seconds } from "@/lib/units/quantities";
import type { EndingName, Pluck } from "./Pluck";
import type { PitchPoint, Vibrato } from "./pitchTrack";

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
