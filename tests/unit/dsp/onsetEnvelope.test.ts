import { describe, expect, it } from "vitest";
import { type OnsetBands, OnsetFlux } from "@/lib/dsp/onsetEnvelope";
import { RealFft } from "@/lib/dsp/RealFft";
import { hannWindow } from "@/lib/dsp/windows";

const BANDS: OnsetBands = {
  sampleRateHz: 22050,
  fftSize: 1024,
  lowestHz: 30,
  highestHz: 10000,
  bandsPerOctave: 24,
  compression: 100,
  lagFrames: 2,
  maximumReach: 1,
};
const HOP = 256;

/** Mean flux of each frame. */
function fluxOf(samples: Float64Array, options: OnsetBands): number[] {
  const fft = new RealFft(options.fftSize);
  const window = hannWindow(options.fftSize).map((value) => (4 * value) / options.fftSize);
  const flux = new OnsetFlux(options);
  const rise = new Float32Array(flux.bandCount);
  const result: number[] = [];
  for (let start = 0; start + options.fftSize <= samples.length; start += HOP) {
    const frame = Float64Array.from(window, (w, n) => w * samples[start + n]!);
    fft.transform(frame);
    flux.next(fft.magnitudes(new Float32Array(fft.binCount)), rise);
    result.push(rise.reduce((sum, value) => sum + value, 0) / rise.length);
  }
  return result;
}

describe("spectral flux", () => {
  it("peaks within a hop or two of where a tone sets in, and is 0 before and while it is held", () => {
    const at = 11025;
    const samples = Float64Array.from({ length: 22050 }, (_, n) =>
      n < at ? 0 : 0.3 * Math.sin((2 * Math.PI * 440 * n) / 22050),
    );
    const flux = fluxOf(samples, BANDS);
    const peak = flux.indexOf(Math.max(...flux));
    const centre = peak * HOP + BANDS.fftSize / 2;
    expect(Math.abs(centre - at)).toBeLessThanOrEqual(2 * HOP);
    expect(Math.max(...flux.slice(0, peak - 4))).toBe(0);
    expect(Math.max(...flux.slice(peak + 6))).toBeLessThan(0.02 * flux[peak]!);
  });

  // Boeck & Widmer, DAFx 2013: the maximum filter is there so that vibrato raises no onsets.
  it("hears less than half as much in a vibrato with the maximum filter as without it", () => {
    let phase = 0;
    const samples = Float64Array.from({ length: 44100 }, (_, n) => {
      const hz = 660 * 2 ** ((0.5 * Math.sin((2 * Math.PI * 6 * n) / 22050)) / 12);
      phase += (2 * Math.PI * hz) / 22050;
      return 0.3 * (Math.sin(phase) + 0.5 * Math.sin(2 * phase) + 0.3 * Math.sin(3 * phase));
    });
    const sum = (values: number[]): number => values.slice(4).reduce((total, value) => total + value, 0);
    const plain = sum(fluxOf(samples, { ...BANDS, maximumReach: 0 }));
    expect(plain).toBeGreaterThan(0);
    expect(sum(fluxOf(samples, BANDS))).toBeLessThan(plain / 2);
  });

  it("names its bands in rising order within the range", () => {
    const { centresHz, bandCount } = new OnsetFlux(BANDS);
    expect(centresHz).toHaveLength(bandCount);
    expect([...centresHz].sort((a, b) => a - b)).toEqual(centresHz);
    expect(centresHz[0]!).toBeGreaterThanOrEqual(30);
    expect(centresHz.at(-1)!).toBeLessThanOrEqual(10000);
  });
});
