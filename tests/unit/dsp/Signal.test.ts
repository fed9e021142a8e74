import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";

describe("a signal kept in pieces", () => {
  // Longer than two pieces.
  const samples = Float32Array.from({ length: 150_000 }, (_, n) => n % 1009);

  it("reads back what was appended, however it came, over the seams of its pieces", () => {
    const signal = new Signal(22050);
    for (let at = 0; at < samples.length; at += 777) signal.append(samples.subarray(at, at + 777));
    expect(signal.length).toBe(samples.length);
    expect(signal.read(0, new Float32Array(samples.length))).toEqual(samples);
    expect(signal.read(65_530, new Float32Array(20))).toEqual(samples.subarray(65_530, 65_550));
  });

  it("is silent before its first and after its last sample", () => {
    const signal = Signal.of(Float32Array.of(1, 2, 3), 22050);
    expect([...signal.read(-2, new Float32Array(7).fill(9))]).toEqual([0, 0, 1, 2, 3, 0, 0]);
    expect([...signal.read(10, new Float32Array(2).fill(9))]).toEqual([0, 0]);
    expect([...signal.read(-10, new Float32Array(2).fill(9))]).toEqual([0, 0]);
  });

  it("is empty once cleared", () => {
    const signal = Signal.of(samples, 22050);
    signal.clear();
    expect(signal.length).toBe(0);
    expect([...signal.read(0, new Float32Array(2).fill(9))]).toEqual([0, 0]);
  });

  it("is multiplied as a whole", () => {
    const signal = Signal.of(samples, 22050);
    signal.scale(0.5);
    expect(signal.read(100_000, new Float32Array(3))).toEqual(
      samples.subarray(100_000, 100_003).map((v) => v / 2),
    );
  });
});
