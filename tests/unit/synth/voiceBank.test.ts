import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BUSES } from "@/lib/synth/buses";
import type { BankNote } from "@/lib/synth/StringSet";
import { type SteelNote, steelPluck } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { VoiceBank } from "@/lib/synth/VoiceBank";
import { midiToHertz } from "@/lib/units/pitch";
import { strengthAt } from "./measurePitch";

const RATE_HZ = 44100;

const note = (startSec: number, endSec: number, midi: number): SteelNote => ({
  ...{ startSec, endSec, pitch: [{ timeSec: startSec, midi }], vibrato: null, level: 0.4, swellSec: 0.02 },
});
const inBank = (notes: readonly SteelNote[]): BankNote[] =>
  notes.map((each) => ({ id: JSON.stringify(each), timbre: "steel", pluck: steelPluck(each, 0, 1) }));

/** Plays the bank for a while, in portions, and gives what the steel sent out. */
function run(
  bank: VoiceBank,
  lengthSec: number,
  portions: readonly number[] = [128],
  each?: (frame: number) => void,
) {
  const length = Math.round(lengthSec * RATE_HZ);
  const steel = new Float32Array(length);
  for (let at = 0, turn = 0; at < length; turn += 1) {
    const count = Math.min(portions[turn % portions.length]!, length - at);
    each?.(at);
    const buses = [steel.subarray(at, at + count), new Float32Array(count)];
    bank.addTo(buses, count);
    at += count;
  }
  return steel;
}

const strength = (sound: Float32Array, midi: number, startSec: number, lengthSec = 0.1) =>
  strengthAt(midiToHertz(midi), sound, RATE_HZ, startSec, lengthSec);
const peak = (sound: Float32Array) => sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

describe("the bank of strings, live", () => {
  const song = [note(0.1, 0.5, 64), note(0.1, 0.6, 59), note(0.3, 0.8, 68), note(0.7, 0.9, 47)];

  it("sounds as the same notes rendered at once, whatever the portions", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 700 }), { minLength: 1, maxLength: 5 }), (portions) => {
        const bank = new VoiceBank(RATE_HZ);
        bank.play("part:1", inBank(song));
        bank.hearOfSong(0, 0, 1);
        const live = run(bank, 1.1, portions);
        const rendered = renderSteel(song, 1.1, RATE_HZ, () => 0);
        expect(live.findIndex((sample, at) => Math.abs(sample - rendered[at]!) > 1e-6)).toBe(-1);
      }),
      { numRuns: 12 },
    );
  });

  it("follows a slowed record: notes begin and end later, at the same pitch", () => {
    const bank = new VoiceBank(RATE_HZ);
    bank.play("part:1", inBank([note(0.2, 0.4, 69)]));
    bank.hearOfSong(0, 0, 0.5);
    const sound = run(bank, 1);
    expect(peak(sound.subarray(0, 0.4 * RATE_HZ))).toBe(0);
    expect(strength(sound, 69, 0.45)).toBeGreaterThan(100 * strength(sound, 57, 0.45));
    expect(strength(sound, 69, 0.68)).toBeGreaterThan(0.02);
    expect(peak(sound.subarray(0.85 * RATE_HZ))).toBe(0);
  });

  it("keeps with a clock that drifts and trembles, within 10 ms", () => {
    const bank = new VoiceBank(RATE_HZ);
    const notes = Array.from({ length: 16 }, (_, at) => note(0.5 * at + 0.25, 0.5 * at + 0.4, 69));
    bank.play("part:1", inBank(notes));
    // The record runs 0.3 % fast, and tells its time every 16 ms or so, up to 8 ms early or late.
    const sound = run(bank, 8, [128], (frame) => {
      if ((frame / 128) % 6 > 0) return;
      const tremble = 0.008 * Math.sin(frame * 0.37);
      bank.hearOfSong((1.003 * frame) / RATE_HZ + tremble, frame, 1);
    });
    for (const { startSec } of notes) {
      const dueSec = startSec / 1.003;
      if (dueSec > 7.8) continue;
      let began = Math.round((dueSec - 0.08) * RATE_HZ);
      while (began < sound.length && sound[began] === 0) began += 1;
      expect(Math.abs(began / RATE_HZ - dueSec)).toBeLessThan(0.01);
    }
  });

  it("goes along when the record jumps: the old notes stop, those of the new place sound", () => {
    const bank = new VoiceBank(RATE_HZ);
    bank.play("part:1", inBank([note(0.1, 3, 64), note(5, 6, 69)]));
    bank.hearOfSong(0, 0, 1);
    run(bank, 0.5);
    // A loop goes back, and the first word of it comes 60 ms late.
    bank.hearOfSong(5.06, 0.5 * RATE_HZ, 1);
    const after = run(bank, 0.5);
    expect(strength(after, 69, 0.05)).toBeGreaterThan(50 * strength(after, 64, 0.05));
  });

  it("stands still with the record, and is silent until it goes on", () => {
    const bank = new VoiceBank(RATE_HZ);
    bank.play("part:1", inBank([note(0.1, 3, 64)]));
    bank.hearOfSong(0, 0, 1);
    run(bank, 0.5);
    bank.haltSong();
    expect(peak(run(bank, 0.5).subarray(0.05 * RATE_HZ))).toBe(0);
  });

  it("lets what is still written sound on when the notes are given anew, and stops what is not", () => {
    const bank = new VoiceBank(RATE_HZ);
    const [kept, dropped] = [note(0.1, 2, 64), note(0.1, 2, 57)];
    bank.play("part:1", inBank([kept, dropped]));
    bank.hearOfSong(0, 0, 1);
    run(bank, 0.5);
    bank.play("part:1", inBank([kept, note(0.8, 2, 69)]));
    const after = run(bank, 0.6);
    const alone = renderSteel([kept], 1.1, RATE_HZ, () => 0);
    expect(after[4000]).toBeCloseTo(alone[0.5 * RATE_HZ + 4000]!, 5);
    expect(strength(after, 57, 0.1)).toBeLessThan(0.01 * strength(after, 64, 0.1));
    expect(strength(after, 69, 0.4)).toBeGreaterThan(0.02);
  });

  it("plays at once what does not follow the record, steel and band each on their own way out", () => {
    const bank = new VoiceBank(RATE_HZ);
    run(bank, 0.2);
    bank.play("steelNow", inBank([note(0, 0.3, 69)]));
    const count = RATE_HZ / 10;
    const buses = [new Float32Array(count), new Float32Array(count)];
    bank.play("drone", [
      {
        id: "drone",
        timbre: "drone",
        pluck: { ...steelPluck(note(0, 1, 45), 0, 1), endSec: Number.POSITIVE_INFINITY },
      },
    ]);
    bank.addTo(buses, count);
    expect(strength(buses[BUSES.parts]!, 69, 0.02, 0.07)).toBeGreaterThan(0.02);
    expect(strength(buses[BUSES.parts]!, 45, 0.02, 0.07)).toBeLessThan(0.001);
    expect(strength(buses[BUSES.band]!, 45, 0.02, 0.07)).toBeGreaterThan(0.02);
  });

  it("holds a drone until it is told to stop", () => {
    const bank = new VoiceBank(RATE_HZ);
    const pluck = { ...steelPluck(note(0, 1, 69), 0, 1), endSec: Number.POSITIVE_INFINITY, opening: 0 };
    bank.play("steelNow", [{ id: "drone", timbre: "drone", pluck }]);
    const sound = run(bank, 12);
    expect(strength(sound, 69, 11.5) / strength(sound, 69, 1)).toBeCloseTo(1, 2);
    bank.play("steelNow", []);
    expect(peak(run(bank, 0.3).subarray(0.1 * RATE_HZ))).toBe(0);
  });

  it("takes more notes at once than it has strings, and stays bounded", () => {
    const bank = new VoiceBank(RATE_HZ);
    const many = Array.from({ length: 80 }, (_, at) => note(0.01 + at * 0.001, 1, 40 + (at % 40)));
    bank.play("part:1", inBank(many));
    bank.hearOfSong(0, 0, 1);
    const sound = run(bank, 0.5);
    expect(sound.every(Number.isFinite)).toBe(true);
    expect(peak(sound)).toBeLessThan(24 * 0.4 * 6.3);
    expect(peak(sound)).toBeGreaterThan(0.4);
  });

  it("holds the strings of several parts, which sound together as each by itself", () => {
    const both = new VoiceBank(RATE_HZ);
    both.play("part:1", inBank(song));
    both.play("part:2", inBank([note(0.2, 0.9, 71)]));
    both.hearOfSong(0, 0, 1);
    const sound = run(both, 1.1);
    const apart = [song, [note(0.2, 0.9, 71)]].map((notes) => renderSteel(notes, 1.1, RATE_HZ, () => 0));
    expect(sound.findIndex((sample, at) => Math.abs(sample - apart[0]![at]! - apart[1]![at]!) > 1e-6)).toBe(
      -1,
    );
  });

  it("takes no string of one part for the many notes of another", () => {
    const many = Array.from({ length: 80 }, (_, at) => note(0.02 + at * 0.001, 1, 30 + (at % 12)));
    const one = note(0.01, 1, 69);
    const [both, others] = [[one], []].map((notes) => {
      const bank = new VoiceBank(RATE_HZ);
      bank.play("part:1", inBank(notes));
      bank.play("part:2", inBank(many));
      bank.hearOfSong(0, 0, 1);
      return run(bank, 0.5);
    });
    const alone = renderSteel([one], 0.5, RATE_HZ, () => 0);
    expect(both!.findIndex((sample, at) => Math.abs(sample - others![at]! - alone[at]!) > 1e-5)).toBe(-1);
  });

  it("turns a part down without a step, and stops it alone where it is given up", () => {
    const bank = new VoiceBank(RATE_HZ);
    bank.play("part:1", inBank([note(0, 3, 64)]));
    bank.play("part:2", inBank([note(0, 3, 71)]));
    bank.hearOfSong(0, 0, 1);
    const whole = run(bank, 0.4);
    bank.setLevel("part:2", 0.25);
    const turned = run(bank, 0.4);
    expect(strength(turned, 71, 0.2) / strength(whole, 71, 0.2)).toBeGreaterThan(0.2);
    expect(strength(turned, 71, 0.2) / strength(whole, 71, 0.2)).toBeLessThan(0.3);
    expect(strength(turned, 64, 0.2) / strength(whole, 64, 0.2)).toBeGreaterThan(0.8);
    const steps = (sound: Float32Array) =>
      sound.reduce((most, sample, at) => Math.max(most, Math.abs(sample - (sound[at - 1] ?? sample))), 0);
    expect(steps(turned)).toBeLessThan(1.05 * steps(whole.subarray(0.2 * RATE_HZ)));
    expect(Math.abs(turned[0]! - whole.at(-1)!)).toBeLessThan(1.05 * steps(whole.subarray(0.2 * RATE_HZ)));
    bank.play("part:2", []);
    const after = run(bank, 0.4);
    expect(strength(after, 71, 0.2)).toBeLessThan(0.001);
    expect(strength(after, 64, 0.2)).toBeGreaterThan(0.02);
  });

  it("begins a part at the level it was given before anything sounded", () => {
    const [quiet, loud] = [0.5, 1].map((level) => {
      const bank = new VoiceBank(RATE_HZ);
      bank.play("part:1", inBank([note(0.1, 1, 69)]));
      bank.setLevel("part:1", level);
      bank.hearOfSong(0, 0, 1);
      return run(bank, 0.5);
    });
    expect(quiet!.findIndex((sample, at) => Math.abs(2 * sample - loud![at]!) > 1e-6)).toBe(-1);
  });
});
