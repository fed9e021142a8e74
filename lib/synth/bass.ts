import type { Cents, Hertz, Midi, Seconds } from "@/lib/units/quantities";
import type { Pluck } from "./Pluck";
import { addPlucks } from "./pluckedString";
import { TIMBRES } from "./timbres";

/** One note of the bass. */
export interface BassNote {
  startSec: Seconds;
  endSec: Seconds;
  midi: Midi;
  /** Loudness, 0 to 1. */
  level: number;
}

/** A note of the bass as a string plays it. */
export function bassPluck({ startSec, endSec, midi, level }: BassNote, tuningCents: Cents): Pluck {
  return {
    ...{ startSec, endSec, level, tuningCents, vibrato: null },
    pitch: [{ timeSec: startSec, midi }],
    attackSec: 0.008,
    ending: "letGo",
    ...{ opening: 0, openingSec: 0, scrape: 0, scrapeSeed: 0 },
  };
}

/** Renders the bass dry, in mono. */
export function renderBass(
  notes: readonly BassNote[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  tuningCents: Cents = 0,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  const plucks = notes.map((note) => bassPluck(note, tuningCents));
  addPlucks(out, sampleRateHz, TIMBRES.bass, plucks);
  return out;
}
