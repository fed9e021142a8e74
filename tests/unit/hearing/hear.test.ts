import { describe, expect, it, vi } from "vitest";
import { HEARING_STEPS, type HearingStep } from "@/lib/hearing/Hearing";
import { HearingStopped, hear } from "@/lib/hearing/hear";
import { addClicks, addTones, chordNotes, RATE_HZ, silence } from "./band";

// Hearing whole records takes long on a machine that does much else; nothing here measures time.
vi.setConfig({ testTimeout: 60_000 });

function shortSong(): Float32Array {
  const samples = silence(6);
  addTones(
    samples,
    chordNotes(
      [
        { bass: 43, upper: [59, 62, 67], beats: 6 },
        { bass: 36, upper: [60, 64, 67], beats: 6 },
      ],
      0.5,
    ),
  );
  return addClicks(
    samples,
    Array.from({ length: 12 }, (_, i) => i / 2),
    () => 0.2,
  );
}

describe("hearing a record", () => {
  it("tells its steps in order, each from 0 to 1, never backwards", () => {
    const told: { step: HearingStep; fraction: number }[] = [];
    hear(shortSong(), RATE_HZ, { onProgress: (step, fraction) => told.push({ step, fraction }) });
    const order = told.map(({ step }) => step).filter((step, i, all) => step !== all[i - 1]);
    expect(order).toEqual([...HEARING_STEPS]);
    for (const step of HEARING_STEPS) {
      const fractions = told.filter((entry) => entry.step === step).map(({ fraction }) => fraction);
      expect(fractions[0]).toBe(0);
      expect(fractions.at(-1)).toBe(1);
      expect([...fractions].sort((a, b) => a - b)).toEqual(fractions);
    }
  });

  it("stops when asked to, in whichever step, and says so", () => {
    for (const step of HEARING_STEPS) {
      let now: HearingStep | undefined;
      const stop = () =>
        hear(shortSong(), RATE_HZ, {
          onProgress: (at) => {
            now = at;
          },
          shouldStop: () => now === step,
        });
      expect(stop).toThrow(new HearingStopped(step));
    }
  });

  it("gives the same answer to the same samples, and leaves them as they were", () => {
    const samples = shortSong();
    const before = samples.slice();
    expect(hear(samples, RATE_HZ)).toEqual(hear(samples, RATE_HZ));
    expect(samples).toEqual(before);
  });

  it("gives the same answer however loud the record is", () => {
    const loud = hear(shortSong(), RATE_HZ);
    const soft = hear(
      shortSong().map((value) => value / 256),
      RATE_HZ,
    );
    expect(soft.chords.map(({ label }) => label)).toEqual(loud.chords.map(({ label }) => label));
    expect(soft.grid.beats).toEqual(loud.grid.beats);
  });

  it("hears the same at another sample rate", () => {
    const samples = shortSong();
    // Every other sample of a record that holds nothing above half the lower rate would lose nothing; here each
    // sample is doubled by interpolation instead, which adds only a little treble.
    const doubled = Float32Array.from({ length: 2 * samples.length }, (_, n) => {
      return n % 2 === 0 ? samples[n / 2]! : (samples[(n - 1) / 2]! + (samples[(n + 1) / 2] ?? 0)) / 2;
    });
    const [plain, fine] = [hear(samples, RATE_HZ), hear(doubled, 2 * RATE_HZ)];
    expect(fine.chords.map(({ label }) => label)).toEqual(plain.chords.map(({ label }) => label));
    expect(fine.durationSec).toBeCloseTo(plain.durationSec, 6);
    expect(Math.abs(fine.grid.tempoBpm - plain.grid.tempoBpm)).toBeLessThan(0.5);
  });
});

describe("records with little in them", () => {
  it("silence: no chord, a grid all the same, and nothing claimed", () => {
    const hearing = hear(silence(5), RATE_HZ);
    expect(hearing.chords.map(({ label }) => label)).toEqual(["N"]);
    expect(hearing.homes).toHaveLength(1);
    expect(hearing.homes[0]!.confidence).toBeLessThan(0.1);
    expect(hearing.tuningConfidence).toBe(0);
    expect(hearing.grid.beatsConfidence).toBe(0);
    expect(hearing.grid.beats.length).toBeGreaterThan(4);
  });

  it("a single note, a tenth of a second, one sample: an answer over the whole of it", () => {
    for (const seconds of [0.8, 0.1, 1 / RATE_HZ]) {
      const samples = addTones(silence(seconds), [{ startSec: 0, endSec: seconds, midi: 57 }]);
      const hearing = hear(samples, RATE_HZ);
      expect(hearing.chords[0]!.startSec).toBe(0);
      expect(hearing.chords.at(-1)!.endSec).toBeCloseTo(hearing.durationSec, 9);
      expect(hearing.homes.at(-1)!.endSec).toBeCloseTo(hearing.durationSec, 9);
      expect(Number.isFinite(hearing.grid.tempoBpm)).toBe(true);
    }
  });

  it("clicks alone: no chord is made up", () => {
    const samples = addClicks(
      silence(6),
      Array.from({ length: 12 }, (_, i) => i / 2),
      () => 0.5,
    );
    expect(new Set(hear(samples, RATE_HZ).chords.map(({ label }) => label))).toEqual(new Set(["N"]));
  });
});

describe("what cannot be heard", () => {
  it("is refused in words", () => {
    expect(() => hear(new Float32Array(0), RATE_HZ)).toThrow(/no samples/);
    expect(() => hear(silence(1), 0)).toThrow(/sample rate/);
    expect(() => hear(silence(1), Number.NaN)).toThrow(/sample rate/);
    expect(() => hear(Float32Array.of(0, Number.NaN, 0), RATE_HZ)).toThrow(/no numbers/);
  });
});
