import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Noise } from "./seededNoise";

export type Drum = "kick" | "snare" | "brush" | "hat";

/** One stroke of the drummer. */
export interface DrumHit {
  startSec: Seconds;
  drum: Drum;
  /** Loudness, 0 to 1. */
  level: number;
}

/** How one drum sounds (measures of ear, no source). */
interface DrumTone {
  /** Time in which the stroke falls to 1/e. */
  decaySec: Seconds;
  /** The skin: a sine that falls from one frequency to the other; null for none. */
  skin: { fromHz: Hertz; toHz: Hertz; fallSec: Seconds; decaySec: Seconds; level: number } | null;
  /** Noise of wires, brush or metal: level, and the frequency below which it is cut. */
  noise: { level: number; lowCutHz: Hertz };
  /** Rise of the noise; longer than a stick's for the sweep of a brush. */
  attackSec: Seconds;
}

const TONES: Readonly<Record<Drum, DrumTone>> = {
  kick: {
    decaySec: 0.006,
    skin: { fromHz: 105, toHz: 48, fallSec: 0.035, decaySec: 0.12, level: 1 },
    noise: { level: 0.12, lowCutHz: 900 },
    attackSec: 0.001,
  },
  snare: {
    decaySec: 0.075,
    skin: { fromHz: 215, toHz: 180, fallSec: 0.02, decaySec: 0.05, level: 0.45 },
    noise: { level: 0.75, lowCutHz: 1100 },
    attackSec: 0.001,
  },
  brush: {
    decaySec: 0.09,
    skin: null,
    noise: { level: 1, lowCutHz: 1600 },
    attackSec: 0.018,
  },
  hat: {
    decaySec: 0.03,
    skin: null,
    noise: { level: 1.6, lowCutHz: 6500 },
    attackSec: 0.001,
  },
};
/** A stroke is followed until it has fallen this many times by 1/e (60 dB). */
const FALLS = 7;

/** Renders drums dry, in mono. */
export function renderDrums(
  hits: readonly DrumHit[],
  durationSec: Seconds,
  sampleRateHz: Hertz,
  noise: Noise,
): Float32Array {
  const out = new Float32Array(Math.ceil(durationSec * sampleRateHz));
  for (const hit of hits) addHit(out, sampleRateHz, hit, noise);
  return out;
}

function addHit(out: Float32Array, sampleRateHz: Hertz, hit: DrumHit, noise: Noise): void {
  const { decaySec, skin, noise: hiss, attackSec } = TONES[hit.drum];
  const first = Math.max(0, Math.round(hit.startSec * sampleRateHz));
  const lengthSec = attackSec + FALLS * Math.max(decaySec, skin?.decaySec ?? 0);
  const count = Math.min(Math.round(lengthSec * sampleRateHz), out.length - first);
  const lowPass = 1 - Math.exp((-2 * Math.PI * hiss.lowCutHz) / sampleRateHz);
  let low = 0;
  let lower = 0;
  let phase = 0;
  for (let index = 0; index < count; index += 1) {
    const timeSec = index / sampleRateHz;
    // Two poles of the noise are taken away from it, which leaves what lies above the cut.
    const white = noise();
    low += (white - low) * lowPass;
    const high = white - low;
    lower += (high - lower) * lowPass;
    const rise = Math.min(timeSec / attackSec, 1);
    let sample = (high - lower) * hiss.level * rise * Math.exp(-timeSec / decaySec);
    if (skin !== null) {
      const hertz = skin.toHz + (skin.fromHz - skin.toHz) * Math.exp(-timeSec / skin.fallSec);
      phase += (2 * Math.PI * hertz) / sampleRateHz;
      sample += Math.sin(phase) * skin.level * Math.exp(-timeSec / skin.decaySec);
    }
    out[first + index]! += sample * hit.level;
  }
}
