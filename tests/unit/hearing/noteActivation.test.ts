import { describe, expect, it } from "vitest";
import { binCount, binHertz, type LogFrequencyScale, LogFrequencyTransform } from "@/lib/dsp/logFrequency";
import { NoteActivation } from "@/lib/hearing/noteActivation";
import { SPECTRUM } from "@/lib/hearing/parameters";

const SCALE: LogFrequencyScale = { ...SPECTRUM, sampleRateHz: 22050, tuningCents: 0 };
const transform = new LogFrequencyTransform(SCALE);
const activation = new NoteActivation(SCALE);

/** Activations of tones with partials of amplitude 0.7^(k - 1), sounding together and steadily. */
function activationsOf(midis: number[]): Float64Array {
  const frame = new Float64Array(SCALE.longestWindow);
  for (const midi of midis) {
    const hz = 440 * 2 ** ((midi - 69) / 12);
    for (let k = 1; k <= 12 && k * hz < 10000; k++) {
      for (let n = 0; n < frame.length; n++) {
        frame[n]! += 0.1 * 0.7 ** (k - 1) * Math.sin((2 * Math.PI * k * hz * n) / 22050 + midi * k);
      }
    }
  }
  const spectrum = new Float32Array(binCount(SCALE));
  transform.transform(frame, spectrum);
  return activation.solve(Float64Array.from(spectrum));
}

/** The strongest notes, as many as asked for, in order of pitch. */
function strongest(activations: Float64Array, count: number): number[] {
  return [...activations]
    .map((value, n) => ({ value, midi: activation.lowestMidi + n }))
    .sort((a, b) => b.value - a.value)
    .slice(0, count)
    .map(({ midi }) => midi)
    .sort((a, b) => a - b);
}

describe("approximate transcription", () => {
  it("finds the one note that sounds, bass to treble, and not its partials", () => {
    for (const midi of [40, 45, 52, 60, 67, 76, 84]) {
      const activations = activationsOf([midi]);
      expect(strongest(activations, 1)).toEqual([midi]);
      const rest = activations.filter((_, n) => n !== midi - activation.lowestMidi);
      expect(Math.max(...rest)).toBeLessThan(0.5 * activations[midi - activation.lowestMidi]!);
    }
  });

  it("finds the notes of chords, close and spread", () => {
    expect(strongest(activationsOf([60, 64, 67]), 3)).toEqual([60, 64, 67]);
    expect(strongest(activationsOf([43, 59, 62, 65]), 4)).toEqual([43, 59, 62, 65]);
    expect(strongest(activationsOf([45, 61, 66]), 3)).toEqual([45, 61, 66]);
  });

  it("is never negative, and 0 for silence", () => {
    expect(Math.min(...activationsOf([57, 60, 66]))).toBeGreaterThanOrEqual(0);
    expect(Math.max(...activation.solve(new Float64Array(binCount(SCALE))))).toBe(0);
  });

  it("reads its notes off a scale that follows the record's tuning", () => {
    const sharp = { ...SCALE, tuningCents: 40 };
    expect(binHertz(sharp, 3 * (69 - SCALE.lowestMidi) + 1)).toBeCloseTo(440 * 2 ** (40 / 1200), 6);
  });
});
