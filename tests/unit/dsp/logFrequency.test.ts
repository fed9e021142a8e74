import { describe, expect, it } from "vitest";
import {
  binCount,
  binHertz,
  binWindowLength,
  type LogFrequencyScale,
  LogFrequencyTransform,
} from "@/lib/dsp/logFrequency";

const SCALE: LogFrequencyScale = {
  sampleRateHz: 22050,
  lowestMidi: 36,
  semitones: 60,
  binsPerSemitone: 3,
  periods: 40,
  shortestWindow: 1024,
  longestWindow: 8192,
  tuningCents: 0,
};

function spectrumOf(hz: number, amplitude: number, scale: LogFrequencyScale): Float32Array {
  const frame = Float64Array.from({ length: scale.longestWindow }, (_, n) => {
    return amplitude * Math.sin((2 * Math.PI * hz * n) / scale.sampleRateHz + 0.7);
  });
  const into = new Float32Array(binCount(scale));
  new LogFrequencyTransform(scale).transform(frame, into);
  return into;
}

describe("the log-frequency scale", () => {
  // ISO 16: A4 = 440 Hz is MIDI key 69, semitone 33 from C2 (key 36); three bins a semitone, the middle one in tune.
  it("puts A4 on the middle bin of its semitone, an octave 36 bins on", () => {
    expect(binHertz(SCALE, 3 * 33 + 1)).toBeCloseTo(440, 9);
    expect(binHertz(SCALE, 3 * 45 + 1)).toBeCloseTo(880, 9);
    expect(binHertz({ ...SCALE, tuningCents: 100 }, 3 * 33 + 1)).toBeCloseTo(466.1638, 3);
  });

  it("spans the periods asked for, within its bounds", () => {
    expect(binWindowLength(SCALE, 3 * 33 + 1)).toBe(2 * Math.round((40 * 22050) / 440 / 2));
    expect(binWindowLength(SCALE, 0)).toBe(8192);
    expect(binWindowLength(SCALE, binCount(SCALE) - 1)).toBe(1024);
  });
});

describe("the log-frequency spectrum of a sine", () => {
  it("reads the sine's amplitude in its own bin, whatever the pitch", () => {
    for (const semitone of [4, 20, 33, 50]) {
      const bin = 3 * semitone + 1;
      const spectrum = spectrumOf(binHertz(SCALE, bin), 0.6, SCALE);
      expect(spectrum[bin]).toBeCloseTo(0.6, 2);
      expect(spectrum.indexOf(Math.max(...spectrum))).toBe(bin);
    }
  });

  it("reads next to nothing two semitones away", () => {
    const spectrum = spectrumOf(440, 1, SCALE);
    const at = 3 * 33 + 1;
    expect(Math.max(...spectrum.slice(0, at - 6), ...spectrum.slice(at + 7))).toBeLessThan(0.02);
  });

  it("follows the record's tuning: 23 cents sharp lands in tune on a scale 23 cents sharp", () => {
    const hz = 440 * 2 ** (23 / 1200);
    const inTune = spectrumOf(hz, 1, { ...SCALE, tuningCents: 23 });
    const at = 3 * 33 + 1;
    expect(inTune[at]).toBeCloseTo(1, 2);
    expect(inTune[at - 1]! / inTune[at + 1]!).toBeCloseTo(1, 1);
    const offTune = spectrumOf(hz, 1, SCALE);
    expect(offTune[at + 1]!).toBeGreaterThan(offTune[at - 1]! * 1.2);
  });

  it("refuses a scale that reaches over half the sample rate", () => {
    expect(() => new LogFrequencyTransform({ ...SCALE, semitones: 100 })).toThrow(RangeError);
  });
});
