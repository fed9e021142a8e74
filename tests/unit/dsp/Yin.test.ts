import { describe, expect, it } from "vitest";
import { toneAmplitudes } from "@/lib/dsp/toneAmplitudes";
import { Yin } from "@/lib/dsp/Yin";
import { seededNoise } from "@/lib/synth/seededNoise";
import { hertzRatioToCents } from "@/lib/units/pitch";

const RATE = 48_000;
const RANGE = { lowestHz: 30, highestHz: 2000 };

function tones(length: number, ...parts: [hz: number, amplitude: number][]): Float32Array {
  return Float32Array.from({ length }, (_, n) =>
    parts.reduce((sum, [hz, amplitude]) => sum + amplitude * Math.sin((2 * Math.PI * hz * n) / RATE + hz), 0),
  );
}

describe("the period of a frame", () => {
  it.each([31, 61.7, 123.47, 246.9, 440, 987.8, 1760])("is a sine's own, within two cents: %d Hz", (hz) => {
    const found = new Yin(8192, RATE, RANGE).find(tones(8192, [hz, 0.3]))!;
    expect(Math.abs(hertzRatioToCents(hz, found.frequencyHz))).toBeLessThan(2);
    expect(found.aperiodicity).toBeLessThan(0.02);
  });

  it("is the fundamental's of a rich tone, whatever partial is loudest", () => {
    const rich = tones(4096, [196, 0.1], [392, 0.4], [588, 0.3], [784, 0.3], [980, 0.2]);
    const found = new Yin(4096, RATE, RANGE).find(rich)!;
    expect(Math.abs(hertzRatioToCents(196, found.frequencyHz))).toBeLessThan(2);
  });

  it("is not clear in noise, and silence has none", () => {
    const noise = seededNoise(7);
    const hiss = Float32Array.from({ length: 8192 }, () => 0.3 * noise());
    const plan = new Yin(8192, RATE, RANGE);
    expect(plan.find(hiss)!.aperiodicity).toBeGreaterThan(0.5);
    expect(plan.find(new Float32Array(8192))).toBeNull();
  });

  it("is where the frame differs least from itself, reckoned from the definition", () => {
    const noise = seededNoise(5);
    const sound = tones(4096, [87.3, 0.3], [174.6, 0.2], [261.9, 0.2]).map((x) => x + 0.02 * noise());
    const longest = Math.ceil(RATE / RANGE.lowestHz) + 1;
    const differs = Array.from({ length: longest }, (_, lag) => {
      const window = sound.subarray(0, sound.length - longest);
      return window.reduce((sum, x, j) => sum + (x - sound[j + lag]!) ** 2, 0);
    });
    const around = differs.slice(500, 600);
    const lag = 500 + around.indexOf(Math.min(...around));
    const mean = differs.slice(1, lag + 1).reduce((sum, x) => sum + x, 0) / lag;
    const found = new Yin(4096, RATE, RANGE).find(sound)!;
    expect(Math.abs(RATE / found.frequencyHz - lag)).toBeLessThanOrEqual(1);
    expect(found.aperiodicity).toBeCloseTo(differs[lag]! / mean, 3);
  });

  it("cannot be looked for in a frame of less than two", () => {
    expect(() => new Yin(2048, RATE, RANGE)).toThrow(RangeError);
    expect(() => new Yin(8192, RATE, { lowestHz: 500, highestHz: 400 })).toThrow(RangeError);
  });
});

describe("amplitudes of tones in a frame", () => {
  it("are those of the sines there, and next to nothing far from them", () => {
    const sound = tones(4096, [440, 0.5], [660, 0.02]);
    const [at440, at660, at220] = toneAmplitudes(sound, RATE, [440, 660, 220]);
    expect(at440).toBeCloseTo(0.5, 2);
    expect(at660).toBeCloseTo(0.02, 3);
    expect(at220).toBeLessThan(0.5 * 10 ** (-60 / 20));
  });
});
