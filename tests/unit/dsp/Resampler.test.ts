import { describe, expect, it } from "vitest";
import { Resampler } from "@/lib/dsp/Resampler";

function sine(hz: number, rateHz: number, seconds: number): Float32Array {
  return Float32Array.from({ length: Math.round(rateHz * seconds) }, (_, n) =>
    Math.sin((2 * Math.PI * hz * n) / rateHz),
  );
}

/** The samples at the new rate, given to the filter in blocks of so many. */
function resampled(samples: Float32Array, from: number, to: number, block = samples.length): Float32Array {
  const found: number[] = [];
  const resampler = new Resampler(from, to, (part) => found.push(...part));
  for (let at = 0; at < samples.length; at += block) resampler.push(samples.subarray(at, at + block));
  resampler.finish();
  return Float32Array.from(found);
}

/** Root mean square away from the ends, in dB against a full-scale sine. */
function levelDb(samples: Float32Array): number {
  const middle = samples.subarray(2000, samples.length - 2000);
  const power = middle.reduce((sum, value) => sum + value * value, 0) / middle.length;
  return 10 * Math.log10(2 * power + 1e-30);
}

describe("a record read at another rate", () => {
  const ratios = [
    { from: 44100, to: 22050 },
    { from: 48000, to: 22050 },
    { from: 96000, to: 22050 },
    { from: 22050, to: 44100 },
    { from: 16000, to: 22050 },
  ];
  for (const { from, to } of ratios) {
    it(`${from} to ${to} Hz: the same sine, sample by sample`, () => {
      const heard = resampled(sine(1000, from, 0.5), from, to);
      let worst = 0;
      for (let n = 2000; n < heard.length - 2000; n++) {
        worst = Math.max(worst, Math.abs(heard[n]! - Math.sin((2 * Math.PI * 1000 * n) / to)));
      }
      expect(heard.length).toBe(Math.ceil((Math.round(from * 0.5) * to) / from));
      expect(worst).toBeLessThan(3e-4);
    });
  }

  it("passes up to 0.8 of the lower Nyquist frequency within 0.01 dB", () => {
    for (const hz of [50, 3000, 8800]) {
      expect(Math.abs(levelDb(resampled(sine(hz, 44100, 1), 44100, 22050)))).toBeLessThan(0.01);
    }
  });

  it("lets no tone from above the new Nyquist frequency through as an alias: 85 dB down or more", () => {
    for (const hz of [11100, 12000, 15000, 20000]) {
      expect(levelDb(resampled(sine(hz, 44100, 1), 44100, 22050))).toBeLessThan(-85);
      expect(levelDb(resampled(sine(hz, 48000, 1), 48000, 22050))).toBeLessThan(-85);
    }
  });

  it("leaves no image above the old Nyquist frequency when the rate goes up", () => {
    const heard = resampled(sine(3000, 11025, 1), 11025, 22050);
    // The image of 3000 Hz would lie at 11025 - 3000 = 8025 Hz.
    let re = 0;
    let im = 0;
    for (let n = 4000; n < 18000; n++) {
      re += heard[n]! * Math.cos((2 * Math.PI * 8025 * n) / 22050);
      im += heard[n]! * Math.sin((2 * Math.PI * 8025 * n) / 22050);
    }
    expect(20 * Math.log10((2 * Math.hypot(re, im)) / 14000)).toBeLessThan(-75);
  });

  it("gives the same numbers however the record is cut into blocks", () => {
    for (const [from, to] of [
      [48000, 22050],
      [44100, 22050],
      [11025, 22050],
    ] as const) {
      const source = sine(440, from, 0.5);
      const whole = resampled(source, from, to);
      for (const block of [1, 97, 4096, 10_000]) expect(resampled(source, from, to, block)).toEqual(whole);
    }
  });

  it("rounds the length up, down to a record of one sample", () => {
    expect(resampled(new Float32Array(1), 48000, 22050)).toHaveLength(1);
    expect(resampled(new Float32Array(1001), 44100, 22050)).toHaveLength(501);
    expect(resampled(new Float32Array(3), 768_000, 22050)).toHaveLength(1);
    expect(resampled(new Float32Array(0), 44100, 22050)).toHaveLength(0);
  });

  it("keeps the samples as they are at the same rate", () => {
    const source = Float32Array.of(0.5, -0.25, 1);
    expect(resampled(source, 22050, 22050)).toEqual(source);
  });

  it("refuses rates that are none", () => {
    expect(() => new Resampler(0, 22050, () => {})).toThrow(RangeError);
    expect(() => new Resampler(Number.NaN, 22050, () => {})).toThrow(RangeError);
  });
});
