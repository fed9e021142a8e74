import { describe, expect, it } from "vitest";
import { FrameMatrix } from "@/lib/dsp/FrameMatrix";
import { forEachFrame, frameCount } from "@/lib/dsp/framing";
import { Signal } from "@/lib/dsp/Signal";
import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";

describe("frames of a record", () => {
  const hop = 512;
  const size = 1024;
  // Longer than one block of reading, so that blocks are seen to join without a seam.
  const samples = Float32Array.from({ length: 150_001 }, (_, n) => (n % 1000) / 1000);
  const signal = Signal.of(samples, 22050);

  it("are centred on multiples of the hop and join without a seam", () => {
    const memory = new KernelMemory();
    let expected = 0;
    forEachFrame(signal, { size, hop }, memory, (at, index) => {
      expect(index).toBe(expected++);
      const frame = memory.floats.subarray(at / 4, at / 4 + size);
      const wrong = frame.findIndex((value, n) => value !== (samples[index * hop - size / 2 + n] ?? 0));
      expect(wrong).toBe(-1);
    });
    expect(expected).toBe(frameCount(signal, { size, hop }));
    expect((expected - 1) * hop).toBeGreaterThanOrEqual(samples.length);
  });

  it("are announced first so that work can stop", () => {
    const visited: number[] = [];
    const run = () =>
      forEachFrame(
        signal,
        { size, hop },
        new KernelMemory(),
        (_, index) => visited.push(index),
        (index) => {
          if (index === 6) throw new Error("enough");
        },
      );
    expect(run).toThrow("enough");
    expect(visited).toEqual([0, 1, 2, 3, 4, 5]);
  });
});

describe("a matrix of frames", () => {
  it("hands out its rows to read and write", () => {
    const matrix = new FrameMatrix(3, 2);
    matrix.row(1).set([4, 5]);
    expect([...matrix.data]).toEqual([0, 0, 4, 5, 0, 0]);
    expect(() => matrix.row(3)).toThrow(RangeError);
  });
});
