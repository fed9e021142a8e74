import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { RealFft } from "@/lib/dsp/RealFft";

/** The definition of the discrete Fourier transform, one bin. */
function definition(frame: Float64Array, bin: number): { re: number; im: number } {
  let re = 0;
  let im = 0;
  frame.forEach((value, n) => {
    re += value * Math.cos((2 * Math.PI * bin * n) / frame.length);
    im -= value * Math.sin((2 * Math.PI * bin * n) / frame.length);
  });
  return { re, im };
}

// Sizes with and without a last pass of radix 2.
const frames = fc
  .constantFrom(32, 64, 128, 256)
  .chain((size) =>
    fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size, maxLength: size }),
  );

describe("the transform of a real frame", () => {
  it("is the discrete Fourier transform by its definition", () => {
    fc.assert(
      fc.property(frames, (values) => {
        const frame = Float64Array.from(values);
        const fft = new RealFft(frame.length);
        fft.transform(frame);
        expect(fft.re).toHaveLength(frame.length / 2 + 1);
        for (let bin = 0; bin < fft.binCount; bin++) {
          const { re, im } = definition(frame, bin);
          expect(fft.re[bin]).toBeCloseTo(re, 4);
          expect(fft.im[bin]).toBeCloseTo(im, 4);
        }
      }),
      { numRuns: 40 },
    );
  });

  it("is right to single precision at the sizes that the ear uses", () => {
    for (const size of [1024, 2048, 8192]) {
      const frame = Float64Array.from({ length: size }, (_, n) => Math.sin(0.37 * n * n));
      const fft = new RealFft(size);
      fft.transform(frame);
      for (const bin of [0, 1, 2, 3, size / 8 + 1, size / 4, size / 4 + 1, size / 2 - 1, size / 2]) {
        const { re, im } = definition(frame, bin);
        expect(Math.hypot(fft.re[bin]! - re, fft.im[bin]! - im)).toBeLessThan(1e-5 * Math.sqrt(size));
      }
    }
  });

  it("keeps the energy (Parseval)", () => {
    fc.assert(
      fc.property(frames, (values) => {
        const frame = Float64Array.from(values);
        const fft = new RealFft(frame.length);
        fft.transform(frame);
        let energy = 0;
        fft.magnitudes(new Float32Array(fft.binCount)).forEach((m, bin) => {
          energy += (bin === 0 || bin === frame.length / 2 ? 1 : 2) * m * m;
        });
        const inTime = frame.reduce((sum, value) => sum + value * value, 0);
        expect(energy / frame.length).toBeCloseTo(inTime, 4);
      }),
      { numRuns: 40 },
    );
  });

  it("puts a cosine of k periods into bin k, with half its length as height", () => {
    const fft = new RealFft(1024);
    fft.transform(Float64Array.from({ length: 1024 }, (_, n) => Math.cos((2 * Math.PI * 37 * n) / 1024)));
    const magnitudes = fft.magnitudes(new Float32Array(fft.binCount));
    expect(magnitudes[37]).toBeCloseTo(512, 3);
    expect(magnitudes.filter((m) => m > 1e-3)).toHaveLength(1);
    expect(fft.magnitudes(new Float32Array(3), 36)).toEqual(magnitudes.subarray(36, 39));
  });

  it("multiplies frames by its window, and leaves their place in the memory as it was", () => {
    const frame = Float32Array.from({ length: 64 }, (_, n) => Math.sin(n));
    const window = Float32Array.from({ length: 64 }, (_, n) => n / 64);
    const windowed = new RealFft(64, window);
    const plain = new RealFft(64);
    const at = windowed.memory.keep(frame);
    windowed.transformAt(at);
    plain.transform(frame.map((value, n) => Math.fround(value * window[n]!)));
    for (let bin = 0; bin < plain.binCount; bin++) expect(windowed.re[bin]).toBeCloseTo(plain.re[bin]!, 5);
    expect(windowed.memory.floats.slice(at / 4, at / 4 + 64)).toEqual(frame);
  });

  it("refuses sizes that are no power of two from 32 up, and frames and windows of another size", () => {
    expect(() => new RealFft(1000)).toThrow(RangeError);
    expect(() => new RealFft(16)).toThrow(RangeError);
    expect(() => new RealFft(64, [1, 2])).toThrow(RangeError);
    expect(() => new RealFft(64).transform(new Float64Array(4))).toThrow(RangeError);
  });
});
