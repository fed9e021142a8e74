import { describe, expect, it } from "vitest";
import { PackedSignal } from "@/lib/dsp/PackedSignal";

// Longer than two pieces of 16,384; the second is far softer than the first.
const samples = Float32Array.from(
  { length: 40_000 },
  (_, n) => (n < 16_384 ? 0.8 : 0.0008) * Math.sin(n * n * 1e-4),
);

function packed(cut = 777): PackedSignal {
  const signal = new PackedSignal(22_050);
  for (let at = 0; at < samples.length; at += cut) signal.append(samples.subarray(at, at + cut));
  signal.close();
  return signal;
}

describe("a signal packed in 16 bits", () => {
  it("reads back what was appended, each piece as finely as its own peak asks for", () => {
    const signal = packed();
    expect(signal.length).toBe(samples.length);
    const found = signal.read(0, new Float32Array(samples.length));
    found.forEach((value, n) => {
      const step = (n < 16_384 ? 0.8 : 0.0008) / 0x7fff;
      if (n % 13 === 0) expect(Math.abs(value - samples[n]!)).toBeLessThanOrEqual(0.51 * step);
    });
    expect(signal.read(16_380, new Float32Array(9))).toEqual(found.subarray(16_380, 16_389));
  });

  it("does not depend on how the samples come", () => {
    expect(packed(40_000).pieces).toEqual(packed(1).pieces);
  });

  it("is silent before its first and after its last sample, and where it is silent", () => {
    const signal = new PackedSignal(22_050);
    signal.append(Float32Array.of(0, 0, 0));
    signal.close();
    expect([...signal.read(-1, new Float32Array(5).fill(9))]).toEqual([0, 0, 0, 0, 0]);
    expect([...packed().read(39_999, new Float32Array(3).fill(9))].slice(1)).toEqual([0, 0]);
    expect([...packed().read(-2, new Float32Array(2).fill(9))]).toEqual([0, 0]);
  });

  it("is made from its pieces again, multiplied as a whole, and empty once cleared", () => {
    const signal = packed();
    const again = new PackedSignal(22_050, signal.pieces);
    const before = signal.read(0, new Float32Array(samples.length));
    expect(again.read(0, new Float32Array(samples.length))).toEqual(before);
    signal.scale(0.5);
    expect(signal.read(0, new Float32Array(samples.length))).toEqual(before.map((value) => value / 2));
    signal.clear();
    expect(signal.length).toBe(0);
    expect([...signal.read(0, new Float32Array(2).fill(9))]).toEqual([0, 0]);
  });
});
