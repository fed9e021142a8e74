import { describe, expect, it } from "vitest";
import { renderBass } from "@/lib/synth/bass";
import { renderDrums } from "@/lib/synth/drums";
import { seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { renderStrums } from "@/lib/synth/strum";
import { midiToHertz } from "@/lib/units/pitch";
import { centsFrom, strengthAt } from "./measurePitch";

const RATE_HZ = 44100;

function steelNote(midi: number, more: Partial<SteelNote> = {}): SteelNote {
  const pitch = [{ timeSec: 0.1, midi }];
  return { startSec: 0.1, endSec: 1.2, pitch, vibrato: null, level: 0.5, swellSec: 0, ...more };
}

const steel = (notes: SteelNote[], tuningCents = 0) =>
  renderSteel(notes, 1.4, RATE_HZ, seededNoise(1), tuningCents);

// ISO 16: A4 = 440 Hz; equal temperament f = 440 * 2^((m - 69) / 12). Figures as in any handbook table.
const HANDBOOK_HZ = [
  [47, 123.47],
  [52, 164.81],
  [56, 207.65],
  [59, 246.94],
  [64, 329.63],
  [68, 415.3],
  [69, 440],
  [76, 659.26],
  [88, 1318.51],
] as const;

describe("pitch of the voices", () => {
  it.each(HANDBOOK_HZ)("steel: MIDI %i sounds at %f Hz, within 3 cents", (midi, hertz) => {
    const sound = steel([steelNote(midi)]);
    expect(Math.abs(centsFrom(hertz, sound, RATE_HZ, 0.3, 0.4))).toBeLessThan(3);
  });

  it("follows the tuning of the record", () => {
    const sound = steel([steelNote(64)], 9);
    expect(centsFrom(329.63, sound, RATE_HZ, 0.3, 0.4)).toBeCloseTo(9, 0);
  });

  it.each([
    [28, 41.2],
    [33, 55],
    [40, 82.41],
  ])("bass: MIDI %i sounds at %f Hz, within 3 cents", (midi, hertz) => {
    const sound = renderBass([{ startSec: 0, endSec: 1.2, midi, level: 0.8 }], 1.4, RATE_HZ);
    expect(Math.abs(centsFrom(hertz, sound, RATE_HZ, 0.2, 0.5))).toBeLessThan(3);
  });

  it("guitar: a strum holds each of its pitches, within 3 cents", () => {
    for (const midi of [45, 52, 57, 61, 64]) {
      const strum = { startSec: 0, endSec: 1.2, midis: [midi], stroke: "down" as const, level: 0.8 };
      const sound = renderStrums([strum], 1.4, RATE_HZ);
      expect(Math.abs(centsFrom(midiToHertz(midi), sound, RATE_HZ, 0.2, 0.4))).toBeLessThan(3);
    }
  });
});

describe("the steel's glides", () => {
  // Pedal A lifts string 5 by two semitones (b0b.com, B. Lee): B3 to C#4 against a held E4.
  const held = steelNote(64);
  const pulled = steelNote(59, {
    pitch: [
      { timeSec: 0.1, midi: 59 },
      { timeSec: 0.5, midi: 59 },
      { timeSec: 0.62, midi: 61 },
    ],
  });

  it("move the string that the pedal pulls and no other", () => {
    const both = steel([held, pulled]);
    const strength = (midi: number, startSec: number) =>
      strengthAt(midiToHertz(midi), both, RATE_HZ, startSec, 0.25);
    expect(strength(59, 0.2)).toBeGreaterThan(20 * strength(61, 0.2));
    expect(strength(61, 0.75)).toBeGreaterThan(20 * strength(59, 0.75));
    expect(strength(64, 0.2)).toBeGreaterThan(20 * strength(66, 0.2));
    expect(strength(64, 0.75)).toBeGreaterThan(20 * strength(66, 0.75));

    expect(Math.abs(centsFrom(246.94, steel([pulled]), RATE_HZ, 0.2, 0.25))).toBeLessThan(3);
    expect(Math.abs(centsFrom(277.18, steel([pulled]), RATE_HZ, 0.7, 0.4))).toBeLessThan(3);
    const alone = steel([held]);
    for (const startSec of [0.2, 0.5, 0.75]) {
      expect(Math.abs(centsFrom(329.63, alone, RATE_HZ, startSec, 0.2))).toBeLessThan(3);
    }
  });

  it("have no second attack and no click", () => {
    const sound = steel([{ ...pulled, swellSec: 0.05 }]);
    const still = steel([steelNote(61, { swellSec: 0.05 })]);
    const steepest = (samples: Float32Array, from: number, to: number) => {
      let most = 0;
      for (let index = Math.round(from * RATE_HZ); index < to * RATE_HZ; index += 1) {
        most = Math.max(most, Math.abs(samples[index + 1]! - samples[index]!));
      }
      return most;
    };
    expect(steepest(sound, 0.45, 0.7)).toBeLessThan(1.5 * steepest(still, 0.45, 0.7));
    // Block to block and through the release the wave stays as smooth as it is elsewhere.
    expect(steepest(still, 1.15, 1.3)).toBeLessThan(1.2 * steepest(still, 0.3, 0.5));
  });

  it("shake to both sides of the note by the vibrato's depth, and not before it begins", () => {
    const vibrato = { startSec: 0.1, rateHz: 2, depthCents: 20 };
    const notes = [steelNote(64, { vibrato, endSec: 1.3 })];
    const sound = steel(notes);
    // At 2 Hz the first crest after the growth of 0.3 s is at 0.725 s, the trough between at 0.475 s.
    expect(centsFrom(329.63, sound, RATE_HZ, 0.695, 0.02)).toBeGreaterThan(15);
    expect(centsFrom(329.63, sound, RATE_HZ, 0.455, 0.02)).toBeLessThan(-15);
    const ended = steel([steelNote(64, { vibrato: { ...vibrato, endSec: 0.5 }, endSec: 1.3 })]);
    expect(Math.abs(centsFrom(midiToHertz(64), ended, RATE_HZ, 0.6, 0.2))).toBeLessThan(1);
    const late = steel([steelNote(64, { vibrato: { ...vibrato, startSec: 0.9 } })]);
    expect(Math.abs(centsFrom(329.63, late, RATE_HZ, 0.4, 0.4))).toBeLessThan(3);
  });
});

describe("every voice", () => {
  it("starts and ends in silence, and keeps within its time", () => {
    const sound = steel([steelNote(64)]);
    expect(sound.length).toBe(Math.ceil(1.4 * RATE_HZ));
    expect(sound.slice(0, Math.round(0.1 * RATE_HZ)).every((sample) => sample === 0)).toBe(true);
    expect(sound.slice(Math.round(1.24 * RATE_HZ)).every((sample) => sample === 0)).toBe(true);
    expect(sound.some((sample) => Math.abs(sample) > 0.1)).toBe(true);
  });

  it("holds: a chord still sounds after a bar (countrymusicnewsinternational.com 2013)", () => {
    const long = renderSteel([steelNote(64, { endSec: 3.6 })], 4, RATE_HZ, seededNoise(1));
    const loudness = (from: number) => {
      const part = long.slice(Math.round(from * RATE_HZ), Math.round((from + 0.2) * RATE_HZ));
      return Math.sqrt(part.reduce((sum, sample) => sum + sample ** 2, 0) / part.length);
    };
    expect(loudness(3.3)).toBeGreaterThan(loudness(0.3) / 10);
    expect(loudness(3.3)).toBeLessThan(loudness(0.3));
  });

  it("is the same, sample for sample, from the same seed, and another from another", () => {
    const hits = [{ startSec: 0.05, drum: "snare" as const, level: 0.8 }];
    const drums = (seed: number) => renderDrums(hits, 0.6, RATE_HZ, seededNoise(seed));
    expect(drums(7)).toEqual(drums(7));
    expect(drums(7)).not.toEqual(drums(8));
    expect(steel([steelNote(64)])).toEqual(steel([steelNote(64)]));
  });

  it("takes events past the end of the record without harm", () => {
    const hits = [{ startSec: 5, drum: "kick" as const, level: 1 }];
    expect(renderDrums(hits, 1, RATE_HZ, seededNoise(1)).every((sample) => sample === 0)).toBe(true);
    const late = steelNote(64, { startSec: 3, endSec: 4, pitch: [{ timeSec: 3, midi: 64 }] });
    expect(steel([late]).every((sample) => sample === 0)).toBe(true);
  });
});
