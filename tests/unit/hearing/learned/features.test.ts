import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { EarFeatures, frameSec } from "@/lib/hearing/learned/EarFeatures";
import { addTones, RATE_HZ, silence } from "../band";

const BINS = 288;

/** A bin's frequency and window as the training defines them. */
function binOf(bank: number, k: number): { hz: number; length: number } {
  const hz = 440 * 2 ** ((24 + (k - 1) / 3 - 69) / 12);
  const [cycles, fewest, most] = bank === 0 ? [40, 1024, 8192] : [12, 512, 2048];
  return { hz, length: 2 * Math.floor(Math.min(most!, Math.max(fewest!, (cycles! * RATE_HZ) / hz)) / 2) };
}

/** The feature by its definition: a windowed complex exponential laid over the sound. */
function plainFeature(samples: Float32Array, centre: number, bank: number, k: number): number {
  const { hz, length } = binOf(bank, k);
  let [re, im, sum] = [0, 0, 0];
  for (let t = 0; t < length; t++) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * t) / length);
    const value = window * (samples[centre - length / 2 + t] ?? 0);
    const angle = (2 * Math.PI * hz * (t - length / 2)) / RATE_HZ;
    re += value * Math.cos(angle);
    im -= value * Math.sin(angle);
    sum += window;
  }
  return Math.log1p((1e4 * 2 * Math.hypot(re, im)) / sum) / 4;
}

function sound(): Float32Array {
  const notes = [40, 52, 59, 64, 68, 76].map((midi, i) => ({ startSec: 0.1 * i, endSec: 1.5, midi }));
  return addTones(silence(1.6), notes);
}

describe("what the network hears", () => {
  it("is what its training defines, in both banks", () => {
    const samples = sound();
    const features = new EarFeatures(Signal.of(samples, RATE_HZ), 4);
    const row = new Float32Array(EarFeatures.width);
    let apart = 0;
    for (const frame of [9, 30, 55]) {
      features.read(frame, 1, row);
      for (let k = 0; k < BINS; k += 7) {
        for (const bank of [0, 1]) {
          const wanted = plainFeature(samples, (frame - 8) * 512, bank, k);
          apart = Math.max(apart, Math.abs(row[bank * BINS + k]! - wanted));
        }
      }
    }
    // Kernels leave out what is weaker than a thousandth or so; the logarithm lifts it in near silence.
    expect(apart).toBeLessThan(0.05);
  });

  it("does not depend on how many frames are asked for at once", () => {
    const signal = Signal.of(sound(), RATE_HZ);
    const all = new EarFeatures(signal, 40);
    const rows = new Float32Array(40 * EarFeatures.width);
    all.read(0, 40, rows);
    const few = new EarFeatures(signal, 7);
    const some = new Float32Array(7 * EarFeatures.width);
    few.read(21, 7, some);
    expect(some).toEqual(rows.subarray(21 * EarFeatures.width, 28 * EarFeatures.width));
  });

  it("begins with eight frames of silence", () => {
    expect(frameSec(8)).toBe(0);
    expect(frameSec(9)).toBeCloseTo(512 / 22_050, 9);
  });
});
