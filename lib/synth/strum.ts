import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";
import type { Pluck } from "./Pluck";
import { addPlucks } from "./pluckedString";
import { TIMBRES } from "./timbres";

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

/** From one string to the next. */
const STRING_STEP_SEC: Seconds = 0.009;

/** A stroke as the strings play it, in the order in which they are met. */
export function strumPlucks(strum: Strum, tuningCents: Cents): Pluck[] {
  return struckStrings(strum).map(({ startSec, midi }) => ({
    ...{ startSec, tuningCents, vibrato: null },
    endSec: Math.max(strum.endSec, startSec + 0.02),
    pitch: [{ timeSec: startSec, midi }],
    level: strum.level / Math.sqrt(strum.midis.length),
    attackSec: 0.002,
    ending: "letGo",
    ...{ opening: 0, openingSec: 0, scrape: 0, scrapeSeed: 0 },
  }));
}

/** Renders strums dry, in mono. */
export function renderStrums(
  strums: readonly Strum[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  tuningCents: Cents = 0,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  const plucks = strums.flatMap((strum) => strumPlucks(strum, tuningCents));
  addPlucks(out, sampleRateHz, TIMBRES.guitar, plucks);
  return out;
}

/** When each string of a stroke is met, in that order. */
export function struckStrings({ startSec, midis, stroke }: Strum): { startSec: Seconds; midi: Midi }[] {
  const order = stroke === "down" ? midis : [...midis].reverse();
  return order.map((midi, place) => ({ startSec: startSec + place * STRING_STEP_SEC, midi }));
}
