import { describe, expect, it } from "vitest";
import { RealFft } from "@/lib/dsp/RealFft";
import { besselI0, hannResponse, hannWindow, kaiserAt, kaiserBeta } from "@/lib/dsp/windows";

const LENGTH = 512;

function kaiserWindow(length: number, beta: number): Float64Array {
  return Float64Array.from({ length }, (_, n) => kaiserAt((2 * n) / length - 1, beta));
}

/** Harris 1978, "coherent gain": the mean of the window, its answer to a constant. */
function coherentGain(window: Float64Array): number {
  return window.reduce((sum, value) => sum + value, 0) / window.length;
}

/** Harris 1978, "equivalent noise bandwidth" in bins: N sum(w^2) / sum(w)^2. */
function noiseBandwidthBins(window: Float64Array): number {
  const squares = window.reduce((sum, value) => sum + value * value, 0);
  return squares / (window.length * coherentGain(window) ** 2);
}

/** Highest side lobe in dB under the main lobe, from a transform padded 16 times. */
function highestSideLobeDb(window: Float64Array): number {
  const fft = new RealFft(16 * window.length);
  const frame = new Float64Array(fft.size);
  frame.set(window);
  fft.transform(frame);
  const magnitudes = fft.magnitudes(new Float32Array(fft.binCount));
  let bin = 1;
  while (magnitudes[bin + 1]! < magnitudes[bin]!) bin++;
  let peak = 0;
  for (; bin < magnitudes.length; bin++) peak = Math.max(peak, magnitudes[bin]!);
  return 20 * Math.log10(peak / magnitudes[0]!);
}

// F. J. Harris, Proc. IEEE 66 (1978), table I: coherent gain, equivalent noise bandwidth, highest side lobe.
const HARRIS_TABLE = [
  { name: "Hann", window: hannWindow(LENGTH), gain: 0.5, bandwidth: 1.5, sideLobe: -32 },
  { name: "Kaiser, 2", window: kaiserWindow(LENGTH, 2 * Math.PI), gain: 0.49, bandwidth: 1.5, sideLobe: -46 },
  { name: "Kaiser, 3", window: kaiserWindow(LENGTH, 3 * Math.PI), gain: 0.4, bandwidth: 1.8, sideLobe: -69 },
];

describe("windows against Harris 1978, table I", () => {
  for (const { name, window, gain, bandwidth, sideLobe } of HARRIS_TABLE) {
    it(`${name}: coherent gain, noise bandwidth, highest side lobe`, () => {
      expect(Math.abs(coherentGain(window) - gain)).toBeLessThan(0.006);
      expect(Math.abs(noiseBandwidthBins(window) - bandwidth)).toBeLessThan(0.011);
      expect(Math.abs(highestSideLobeDb(window) - sideLobe)).toBeLessThan(1);
    });
  }

  it("has in the Hann window a mean of one half exactly", () => {
    expect(1000 * coherentGain(hannWindow(1000))).toBeCloseTo(500, 9);
  });

  it("refuse a length that is no whole number from 1 up", () => {
    expect(() => hannWindow(0)).toThrow(RangeError);
    expect(() => hannWindow(2.5)).toThrow(RangeError);
  });
});

describe("the Bessel function behind the Kaiser window", () => {
  // M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions" (1964), tables 9.8 and 9.11.
  it("gives the tabled values", () => {
    expect(besselI0(0)).toBe(1);
    expect(besselI0(1)).toBeCloseTo(1.2660658778, 9);
    expect(besselI0(5) / 27.2398718236).toBeCloseTo(1, 9);
    expect(besselI0(10) / 2815.716628466).toBeCloseTo(1, 9);
  });

  // Kaiser 1974, as in A. V. Oppenheim and R. W. Schafer, "Discrete-Time Signal Processing": 60 dB needs 5.653.
  it("gives Kaiser's beta", () => {
    expect(kaiserBeta(60)).toBeCloseTo(5.653, 3);
    expect(() => kaiserBeta(40)).toThrow(RangeError);
  });
});

describe("the Hann window's response in closed form", () => {
  it("equals the padded transform of the window", () => {
    const pad = 16;
    const fft = new RealFft(pad * LENGTH);
    const frame = new Float64Array(fft.size);
    frame.set(hannWindow(LENGTH));
    fft.transform(frame);
    const magnitudes = fft.magnitudes(new Float32Array(fft.binCount));
    for (let k = 0; k < 6 * pad; k++) {
      expect(hannResponse(k / pad)).toBeCloseTo(magnitudes[k]! / magnitudes[0]!, 4);
    }
  });
});
