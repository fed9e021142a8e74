import { describe, expect, it } from "vitest";
import { bestStepKernel } from "@/lib/dsp/simd/bestStepKernel";
import { filterKernel } from "@/lib/dsp/simd/filterKernel";
import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { logFrequencyKernel } from "@/lib/dsp/simd/logFrequencyKernel";
import { logKernel } from "@/lib/dsp/simd/logKernel";
import { startKernels } from "@/lib/dsp/simd/startKernels";

function numbers(length: number): Float32Array {
  return Float32Array.from({ length }, (_, n) => Math.sin(1 + 0.71 * n * n));
}

describe("the logarithm of many numbers", () => {
  it("is factor ln(1 + gain x) to single precision, from 0 to the loudest", () => {
    const memory = new KernelMemory();
    const values = Float32Array.from({ length: 64 }, (_, n) => (n === 0 ? 0 : 1e-9 * 1.5 ** n));
    const at = memory.keep(values);
    startKernels(memory, [logKernel(1e4, 0.25)]).log!(at, values.length / 4);
    values.forEach((value, n) => {
      expect(memory.floats[at / 4 + n]).toBeCloseTo(Math.log1p(1e4 * value) / 4, 6);
    });
  });
});

describe("a filter laid over many places", () => {
  it("equals plain sums", () => {
    const memory = new KernelMemory();
    const [taps, places, step] = [32, 5, 3];
    const x = numbers(step * places + taps);
    const w = numbers(taps + 7).subarray(7);
    const out = memory.take(2 * places);
    const run = startKernels(memory, [filterKernel()]).filter!;
    run(memory.keep(x), 4 * step, memory.keep(w), taps / 16, out, 8, places);
    for (let place = 0; place < places; place++) {
      const wanted = w.reduce((sum, tap, k) => sum + tap * x[step * place + k]!, 0);
      expect(memory.floats[out / 4 + 2 * place]).toBeCloseTo(wanted, 5);
      expect(memory.floats[out / 4 + 2 * place + 1]).toBe(0);
    }
  });
});

describe("sums over a spectrum", () => {
  it("are the magnitudes of plain sums", () => {
    const memory = new KernelMemory();
    const bins = 24;
    const spectrum = numbers(2 * bins);
    const weights = numbers(12);
    // Bins 3 to 6, then bins 10 to 17.
    const table = memory.keep(new Float32Array(Int32Array.of(12, 1, 40, 2).buffer));
    const out = memory.take(2);
    const run = startKernels(memory, [logFrequencyKernel(4 * bins)]).logFrequency!;
    run(memory.keep(spectrum), table, memory.keep(weights), out, 2);
    [
      { first: 3, from: 0, count: 4 },
      { first: 10, from: 4, count: 8 },
    ].forEach(({ first, from, count }, sum) => {
      let [re, im] = [0, 0];
      for (let k = 0; k < count; k++) {
        re += weights[from + k]! * spectrum[first + k]!;
        im += weights[from + k]! * spectrum[bins + first + k]!;
      }
      expect(memory.floats[out / 4 + sum]).toBeCloseTo(Math.hypot(re, im), 5);
    });
  });
});

describe("a step of a search for best paths", () => {
  it("takes what is better, notes by which step, and leaves the rest", () => {
    const memory = new KernelMemory();
    const values = memory.keep([5, 1, 7, 2]);
    const costs = memory.keep([1, 1, Number.POSITIVE_INFINITY, 0]);
    const scores = memory.keep([3, 3, Number.NEGATIVE_INFINITY, 2]);
    const labels = memory.keep([9, 9, 9, 9]);
    startKernels(memory, [bestStepKernel()]).bestStep!(values, costs, scores, labels, memory.keep([-4]), 1);
    // Equal scores keep the earlier step.
    expect([...memory.floats.subarray(scores / 4, scores / 4 + 4)]).toEqual([
      4,
      3,
      Number.NEGATIVE_INFINITY,
      2,
    ]);
    expect([...memory.floats.subarray(labels / 4, labels / 4 + 4)]).toEqual([-4, 9, 9, 9]);
  });
});
