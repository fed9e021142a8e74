import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import { addPlucks } from "./pluckedString";
import type { Noise } from "./seededNoise";
import { type SteelNote, steelPluck } from "./steelPluck";
import { TIMBRES } from "./timbres";

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
