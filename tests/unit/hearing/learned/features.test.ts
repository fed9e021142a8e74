import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import { EarFeatures, frameSec } from "@/lib/hearing/learned/EarFeatures";
import { addTones, RATE_HZ, silence } from "../band";

const BINS = 288;
const [MID, SHORT, SIDE, BALANCE] = [0, 1, 2, 3];

/** A bin's frequency and window as the training defines them. */
function binOf(windows: "long" | "short", k: number): { hz: number; length: number } {
  const hz = 440 * 2 ** ((24 + (k - 1) / 3 - 69) / 12);
  const [cycles, fewest, most] = windows === "long" ? [40, 1024, 8192] : [12, 512, 2048];
  return { hz, length: 2 * Math.floor(Math.min(most!, Math.max(fewest!, (cycles! * RATE_HZ) / hz)) / 2) };
}

/** A bin by its definition: a windowed complex exponential laid over the sound. */
function plainBin(
  samples: Float32Array,
  centre: number,
  windows: "long" | "short",
  k: number,
): { re: number; im: number } {
  const { hz, length } = binOf(windows, k);
  let [re, im, sum] = [0, 0, 0];
  for (let t = 0; t < length; t++) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * t) / length);
    const value = window * (samples[centre - length / 2 + t] ?? 0);
    const angle = (2 * Math.PI * hz * (t - length / 2)) / RATE_HZ;
    re += value * Math.cos(angle);
    im -= value * Math.sin(angle);
    sum += window;
  }
  return { re: (2 * re) / sum, im: (2 * im) / sum };
}

function compressed({ re, im }: { re: number; im: number }): number {
  return Math.log1p(1e4 * Math.hypot(re, im)) / 4;
}

function strings(midis: readonly number[]): Float32Array {
  const notes = midis.map((midi, i) => ({ startSec: 0.1 * i, endSec: 1.5, midi }));
  return addTones(silence(1.6), notes);
}

function sound(): Float32Array {
  return strings([40, 52, 59, 64, 68, 76]);
}

/** Half the sum and half the difference of two channels. */
function midSide(
  left: Float32Array,
  right: Float32Array,
): { mid: Float32Array; side: Float32Array; signals: StereoSignal } {
  const mid = left.map((value, i) => (value + right[i]!) / 2);
  const side = left.map((value, i) => (value - right[i]!) / 2);
  return { mid, side, signals: { signal: Signal.of(mid, RATE_HZ), side: Signal.of(side, RATE_HZ) } };
}

function mono(samples: Float32Array): StereoSignal {
  return { signal: Signal.of(samples, RATE_HZ), side: null };
}

/** Some strings on the left, others on the right, one in the middle. */
function stereo() {
  const [left, right, middle] = [strings([40, 64, 76]), strings([45, 68, 81]), strings([54])];
  return [left, right].map((channel, c) =>
    channel.map((value, i) => value + 0.1 * [right, left][c]![i]! + middle[i]!),
  ) as [Float32Array, Float32Array];
}

function rowsOf(signals: StereoSignal, isStereo: boolean, first: number, rows: number): Float32Array {
  const features = new EarFeatures(signals, rows, isStereo);
  const into = new Float32Array(rows * features.width);
  features.read(first, rows, into);
  // A 0 with a sign is a 0.
  return into.map((value) => value + 0);
}

describe("what the networks hear", () => {
  it("is what the training defines, in both banks of what channels share", () => {
    const samples = sound();
    const features = new EarFeatures(mono(samples), 4, false);
    const row = new Float32Array(features.width);
    let apart = 0;
    for (const frame of [9, 30, 55]) {
      features.read(frame, 1, row);
      for (let k = 0; k < BINS; k += 7) {
        for (const [bank, windows] of [[MID, "long"] as const, [SHORT, "short"] as const]) {
          const wanted = compressed(plainBin(samples, (frame - 8) * 512, windows, k));
          apart = Math.max(apart, Math.abs(row[bank! * BINS + k]! - wanted));
        }
      }
    }
    // Kernels leave out what is weaker than a thousandth or so; the logarithm lifts it in near silence.
    expect(apart).toBeLessThan(0.05);
  });

  it("is what the training defines, in the side and the balance", () => {
    const { mid, side, signals } = midSide(...stereo());
    const features = new EarFeatures(signals, 1, true);
    const row = new Float32Array(features.width);
    const [sides, balances]: number[][] = [[], []];
    for (const frame of [9, 30, 55]) {
      features.read(frame, 1, row);
      for (let k = 0; k < BINS; k += 5) {
        const m = plainBin(mid, (frame - 8) * 512, "long", k);
        const s = plainBin(side, (frame - 8) * 512, "long", k);
        const power = m.re ** 2 + m.im ** 2 + s.re ** 2 + s.im ** 2;
        sides!.push(Math.abs(row[SIDE! * BINS + k]! - compressed(s)));
        const balance = (2 * (m.re * s.re + m.im * s.im)) / (power + 1e-8);
        // Where next to nothing sounds, what the kernels leave out decides.
        if (power > 1e-6) balances!.push(Math.abs(row[BALANCE! * BINS + k]! - balance));
      }
    }
    expect(Math.max(...sides!)).toBeLessThan(0.05);
    expect(balances!.length).toBeGreaterThan(60);
    expect(Math.max(...balances!)).toBeLessThan(0.05);
  });

  it("tells left from right: positive on the left", () => {
    const at = (midi: number, row: Float32Array) => row[BALANCE! * BINS + 3 * (midi - 24) + 1]!;
    const row = rowsOf(midSide(...stereo()).signals, true, 8 + 40, 1);
    for (const midi of [64, 76]) expect(at(midi, row)).toBeGreaterThan(0.8);
    for (const midi of [45, 68]) expect(at(midi, row)).toBeLessThan(-0.8);
    expect(Math.abs(at(54, row))).toBeLessThan(0.1);
  });

  it("only turns the balance round when left and right are swapped", () => {
    const [left, right] = stereo();
    const one = rowsOf(midSide(left, right).signals, true, 20, 8);
    const other = rowsOf(midSide(right, left).signals, true, 20, 8);
    const turned = other.map((value, i) => (Math.floor(i / BINS) % 4 === BALANCE ? 0 - value : value));
    expect(turned).toEqual(one);
    expect(one.some((value, i) => Math.floor(i / BINS) % 4 === BALANCE && value > 0.5)).toBe(true);
  });

  it("has no side and no balance in mono, whether that has one channel or two that are alike", () => {
    const samples = sound();
    const none = rowsOf(mono(samples), true, 20, 8);
    const two = rowsOf(midSide(samples, samples).signals, true, 20, 8);
    expect(none).toEqual(two);
    const shared = rowsOf(mono(samples), false, 20, 8);
    for (let frame = 0; frame < 8; frame++) {
      const row = none.subarray(4 * frame * BINS, 4 * (frame + 1) * BINS);
      expect(row.subarray(0, 2 * BINS)).toEqual(shared.subarray(2 * frame * BINS, 2 * (frame + 1) * BINS));
      expect(row.subarray(2 * BINS).every((value) => value === 0)).toBe(true);
    }
  });

  it("does not depend on how many frames are asked for at once", () => {
    const { signals } = midSide(...stereo());
    for (const isStereo of [false, true]) {
      const all = rowsOf(signals, isStereo, 0, 40);
      const width = all.length / 40;
      expect(rowsOf(signals, isStereo, 21, 7)).toEqual(all.subarray(21 * width, 28 * width));
    }
  });

  it("begins with eight frames of silence", () => {
    expect(frameSec(8)).toBe(0);
    expect(frameSec(9)).toBeCloseTo(512 / 22_050, 9);
  });
});
