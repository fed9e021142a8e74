import { midiToHertz } from "@/lib/units/pitch";
import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import { type PitchPoint, pitchAt, type Vibrato, vibratoAt } from "./pitchTrack";

/** What a string is made of and where it is picked and heard. */
export interface StringTimbre {
  /** Where it is picked, as a part of its length, 0 to 0.5. */
  pickPosition: number;
  /** Where it is heard (pickup or bridge), as a part of its length; null hears all partials alike. */
  pickupPosition: number | null;
  /** How steeply partials fall with their number n: amplitude n^-slope. */
  slope: number;
  /** Damping of all partials, 1/s. */
  damping: number;
  /** Damping that grows with the square of frequency, s. */
  airDamping: number;
  /** Partials above this are left out. */
  brightestHz: Hertz;
}

/** One pluck, sounding from `startSec` to `endSec` and then damped. */
export interface Pluck {
  startSec: Seconds;
  endSec: Seconds;
  /** Points in ascending time, on the same clock as `startSec`. */
  pitch: readonly PitchPoint[];
  vibrato: Vibrato | null;
  /** Loudness, 0 to 1. */
  level: number;
  attackSec: Seconds;
  releaseSec: Seconds;
  /** Gain of the player's volume pedal at a time since the pluck. */
  pedalGain?: (sinceSec: Seconds) => number;
}

/** Samples between two looks at pitch and pedal; in between both move in a straight line. */
const BLOCK = 32;
/** 100 dB below full level. */
const INAUDIBLE = 1e-5;

/**
 * Adds a plucked string to `out`: a sum of harmonic partials. At the start they stand as on an ideal string
 * plucked at one point and heard at another (N. H. Fletcher, T. D. Rossing, "The Physics of Musical Instruments",
 * 2nd ed. 1998, section 2.7), then each dies at its own rate, damping + airDamping * frequency^2 (after
 * A. Chaigne, A. Askenfelt, JASA 95(2), 1994). All partials run from one phase, so that the pitch may move
 * freely while the string sounds; sin(n * phase) comes from the Chebyshev recurrence.
 * @param out mono samples; what lies outside it is not written
 * @param tuningCents distance of the whole record from A4 = 440 Hz
 */
export function addPluck(
  out: Float32Array,
  sampleRateHz: Hertz,
  timbre: StringTimbre,
  pluck: Pluck,
  tuningCents: Cents = 0,
): void {
  const first = Math.max(0, Math.round(pluck.startSec * sampleRateHz));
  const last = Math.min(out.length, Math.ceil((pluck.endSec + pluck.releaseSec) * sampleRateHz));
  const { amplitudes, decays } = startPartials(timbre, pluck, sampleRateHz, tuningCents);
  const hertzAt = (timeSec: Seconds) => {
    const shakeCents = pluck.vibrato === null ? 0 : vibratoAt(pluck.vibrato, timeSec);
    return midiToHertz(pitchAt(pluck.pitch, timeSec), tuningCents + shakeCents);
  };
  const gainAt = (timeSec: Seconds) => envelope(pluck, timeSec);

  let phase = 0;
  let sounding = amplitudes.length;
  let hertz = hertzAt(first / sampleRateHz);
  let gain = gainAt(first / sampleRateHz);
  for (let block = first; block < last; block += BLOCK) {
    const nextSec = (block + BLOCK) / sampleRateHz;
    const hertzStep = (hertzAt(nextSec) - hertz) / BLOCK;
    const gainStep = (gainAt(nextSec) - gain) / BLOCK;
    // High partials die first; what has died is left out.
    while (sounding > 1 && Math.abs(amplitudes[sounding - 1]!) < INAUDIBLE) sounding -= 1;
    const blockEnd = Math.min(block + BLOCK, last);
    for (let sample = block; sample < blockEnd; sample += 1) {
      const turn = 2 * Math.cos(phase);
      let before = 0;
      let partial = Math.sin(phase);
      let sum = 0;
      for (let index = 0; index < sounding; index += 1) {
        const amplitude = amplitudes[index]!;
        sum += amplitude * partial;
        amplitudes[index] = amplitude * decays[index]!;
        const next = turn * partial - before;
        before = partial;
        partial = next;
      }
      out[sample]! += sum * gain;
      phase += (2 * Math.PI * hertz) / sampleRateHz;
      if (phase > 2 * Math.PI) phase -= 2 * Math.PI;
      hertz += hertzStep;
      gain += gainStep;
    }
  }
}

function startPartials(timbre: StringTimbre, pluck: Pluck, sampleRateHz: Hertz, tuningCents: Cents) {
  const lowestHz = midiToHertz(Math.min(...pluck.pitch.map((point) => point.midi)), tuningCents);
  const highestHz = midiToHertz(Math.max(...pluck.pitch.map((point) => point.midi)), tuningCents);
  const count = Math.max(1, Math.floor(Math.min(timbre.brightestHz, 0.45 * sampleRateHz) / highestHz));
  const amplitudes = new Float64Array(count);
  const decays = new Float64Array(count);
  let power = 0;
  for (let index = 0; index < count; index += 1) {
    const number = index + 1;
    const heard = timbre.pickupPosition === null ? 1 : Math.sin(number * Math.PI * timbre.pickupPosition);
    const amplitude = (Math.sin(number * Math.PI * timbre.pickPosition) * heard) / number ** timbre.slope;
    amplitudes[index] = amplitude;
    power += amplitude ** 2;
    const dampingPerSec = timbre.damping + timbre.airDamping * (number * lowestHz) ** 2;
    decays[index] = Math.exp(-dampingPerSec / sampleRateHz);
  }
  const scale = pluck.level / Math.sqrt(power || 1);
  for (let index = 0; index < count; index += 1) amplitudes[index]! *= scale;
  return { amplitudes, decays };
}

function envelope(pluck: Pluck, timeSec: Seconds): number {
  const sinceSec = Math.max(timeSec - pluck.startSec, 0);
  const attack = Math.min(sinceSec / pluck.attackSec, 1);
  const release = 1 - Math.min(Math.max(timeSec - pluck.endSec, 0) / pluck.releaseSec, 1);
  return attack * release * (pluck.pedalGain?.(sinceSec) ?? 1);
}
