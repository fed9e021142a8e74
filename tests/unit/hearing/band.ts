/** Sounds of known pitch, time and tuning for the tests of the ear; nothing in them is random. */

export const RATE_HZ = 22050;

export interface TestNote {
  startSec: number;
  endSec: number;
  midi: number;
  /** Peak of the first partial. */
  level?: number;
}

export function silence(seconds: number): Float32Array {
  return new Float32Array(Math.round(seconds * RATE_HZ));
}

/** Adds harmonic tones (eight partials of falling strength, plucked: quick rise, slow decay) to `samples`. */
export function addTones(samples: Float32Array, notes: TestNote[], tuningCents = 0): Float32Array {
  for (const { startSec, endSec, midi, level = 0.1 } of notes) {
    const hz = 440 * 2 ** ((midi - 69 + tuningCents / 100) / 12);
    const first = Math.round(startSec * RATE_HZ);
    const count = Math.min(samples.length, Math.round(endSec * RATE_HZ)) - first;
    for (let n = 0; n < count; n++) {
      const t = n / RATE_HZ;
      const envelope = Math.min(1, t / 0.005) * Math.exp(-1.5 * t) * Math.min(1, (count - n) / 400);
      let sum = 0;
      for (let k = 1; k <= 8 && k * hz < 10000; k++)
        sum += Math.sin(2 * Math.PI * k * hz * t) * 0.6 ** (k - 1);
      samples[first + n]! += level * envelope * sum;
    }
  }
  return samples;
}

/** Adds clicks (40 ms of a decaying cluster of tones, as of a snare or a hat) at the times given. */
export function addClicks(
  samples: Float32Array,
  timesSec: number[],
  level: (index: number) => number,
): Float32Array {
  timesSec.forEach((time, index) => {
    const first = Math.round(time * RATE_HZ);
    for (let n = 0; n < 0.04 * RATE_HZ && first + n < samples.length; n++) {
      const t = n / RATE_HZ;
      let sum = 0;
      for (const hz of [331, 787, 1471, 2689, 4127, 6301]) sum += Math.sin(2 * Math.PI * hz * t + hz);
      samples[first + n]! += (level(index) * Math.exp(-90 * t) * sum) / 6;
    }
  });
  return samples;
}

/** Adds strokes of a bass drum: 120 ms of a tone that falls from 90 to 50 Hz. */
export function addDrum(samples: Float32Array, timesSec: number[], level: number): Float32Array {
  for (const time of timesSec) {
    const first = Math.round(time * RATE_HZ);
    for (let n = 0; n < 0.12 * RATE_HZ && first + n < samples.length; n++) {
      const t = n / RATE_HZ;
      samples[first + n]! +=
        level * Math.exp(-25 * t) * Math.sin(2 * Math.PI * (50 * t + 2 * (1 - Math.exp(-20 * t))));
    }
  }
  return samples;
}

/** A chord to play: bass note and upper notes as MIDI pitches, for some beats. */
export interface TestChord {
  bass: number;
  upper: number[];
  beats: number;
}

/** Each chord struck on every beat over its bass, `leadInSec` of silence first. */
export function chordNotes(chords: TestChord[], beatSec: number, leadInSec = 0): TestNote[] {
  const notes: TestNote[] = [];
  let beat = 0;
  for (const { bass, upper, beats } of chords) {
    for (let i = 0; i < beats; i++) {
      const startSec = leadInSec + beat * beatSec;
      const endSec = startSec + beatSec;
      notes.push({ startSec, endSec, midi: bass, level: 0.15 });
      for (const midi of upper) notes.push({ startSec, endSec, midi, level: 0.06 });
      beat += 1;
    }
  }
  return notes;
}
