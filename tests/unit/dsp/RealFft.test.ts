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

const frames = fc
  .constantFrom(4, 8, 16, 32, 64)
  .chain((size) =>
    fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size, maxLength: size }),
  );

describe("the transform of a real frame", () => {
  it("is the discrete Fourier transform by its definition", () => {
    fc.assert(
      fc.property(frames, (values) => {
        const frame = Float64Array.from(values);
        const fft = new RealFft(frame.length);
        const spectrum = fft.transform(frame);
        for (let bin = 0; bin < fft.binCount; bin++) {
          const { re, im } = definition(frame, bin);
          expect(spectrum[2 * bin]).toBeCloseTo(re, 9);
          expect(spectrum[2 * bin + 1]).toBeCloseTo(im, 9);
        }
      }),
      { numRuns: 40 },
    );
  });

  it("keeps the energy (Parseval)", () => {
    fc.assert(
      fc.property(frames, (values) => {
        const frame = Float64Array.from(values);
        const fft = new RealFft(frame.length);
        const magnitudes = fft.magnitudes(frame, new Float64Array(fft.binCount));
        let energy = 0;
        magnitudes.forEach((m, bin) => {
          energy += (bin === 0 || bin === frame.length / 2 ? 1 : 2) * m * m;
        });
        const inTime = frame.reduce((sum, value) => sum + value * value, 0);
        expect(energy / frame.length).toBeCloseTo(inTime, 9);
      }),
      { numRuns: 40 },
    );
  });

  it("puts a cosine of k periods into bin k, with half its length as height", () => {
    const fft = new RealFft(1024);
    const frame = Float64Array.from({ length: 1024 }, (_, n) => Math.cos((2 * Math.PI * 37 * n) / 1024));
    const magnitudes = fft.magnitudes(frame, new Float64Array(fft.binCount));
    expect(magnitudes[37]).toBeCloseTo(512, 6);
    expect(magnitudes.filter((m) => m > 1e-6)).toHaveLength(1);
  });

  it("refuses sizes that are no power of two, and frames of another size", () => {
    expect(() => new RealFft(1000)).toThrow(RangeError);
    expect(() => new RealFft(2)).toThrow(RangeError);
    expect(() => new RealFft(8).transform(new Float64Array(4))).toThrow(RangeError);
  });
});
