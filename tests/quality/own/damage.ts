import { seededNoise } from "@/lib/synth/seededNoise";
import type { Damage } from "../Subject";

/** What each damage does: band that passes, hiss and clicks beside music at level 1, how hard it is driven. */
const DAMAGES: Readonly<
  Record<Damage, { lowHz: number; highHz: number; hiss: number; clicksPerSec: number; drive: number }>
> = {
  "old-record": { lowHz: 200, highHz: 3_200, hiss: 0.25, clicksPerSec: 4, drive: 1 },
  noise: { lowHz: 20, highHz: 15_000, hiss: 1, clicksPerSec: 0, drive: 1 },
  "small-speaker": { lowHz: 500, highHz: 5_000, hiss: 0.02, clicksPerSec: 0, drive: 6 },
};

/** One channel as worn or poor equipment would give it; noise is told by its level against the music's (both RMS). */
export function damaged(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  damage: Damage,
): Float32Array[] {
  const { lowHz, highHz, hiss, clicksPerSec, drive } = DAMAGES[damage];
  const length = channels[0]!.length;
  const mono = new Float32Array(length);
  for (const channel of channels) for (let i = 0; i < length; i++) mono[i]! += channel[i]! / channels.length;
  // Two poles each way.
  for (let pass = 0; pass < 2; pass++) passBand(mono, sampleRateHz, lowHz, highHz);
  let power = 0;
  for (const sample of mono) power += sample * sample;
  const level = Math.sqrt(power / length);
  const noise = seededNoise(61);
  const clicks = seededNoise(71);
  // Evenly spread noise has an RMS of 1/sqrt(3).
  const hissPeak = hiss * level * Math.sqrt(3);
  for (let i = 0; i < length; i++) {
    const clicked = (clicks() + 1) / 2 < clicksPerSec / sampleRateHz ? 6 * level * noise() : 0;
    const driven = drive > 1 ? Math.tanh((drive * mono[i]!) / (3 * level)) * level : mono[i]!;
    mono[i] = driven + hissPeak * noise() + clicked;
  }
  return [mono];
}

function passBand(samples: Float32Array, sampleRateHz: number, lowHz: number, highHz: number): void {
  const highPole = 1 - Math.exp((-2 * Math.PI * highHz) / sampleRateHz);
  const lowPole = 1 - Math.exp((-2 * Math.PI * lowHz) / sampleRateHz);
  let held = 0;
  let below = 0;
  for (let i = 0; i < samples.length; i++) {
    held += (samples[i]! - held) * highPole;
    below += (held - below) * lowPole;
    samples[i] = held - below;
  }
}
