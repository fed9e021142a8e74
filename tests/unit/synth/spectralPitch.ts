import FFT from "fft.js";
import { hertzRatioToCents } from "@/lib/units/pitch";

const SIZE = 1 << 16;

/**
 * Distance of the fundamental from `expectedHz`, in cents: the highest point of the spectrum within a semitone of it, by a
 * Hann window, zero padding and a parabola through the logarithms of the three highest bins (J. O. Smith, "Spectral
 * Audio Signal Processing", quadratic interpolation of spectral peaks). Nothing is known here of how it was made.
 */
export function peakCentsFrom(
  expectedHz: number,
  samples: Float32Array,
  sampleRateHz: number,
  startSec: number,
  lengthSec: number,
): number {
  const first = Math.round(startSec * sampleRateHz);
  const count = Math.min(SIZE, Math.round(lengthSec * sampleRateHz));
  const fft = new FFT(SIZE);
  const input = new Array<number>(SIZE).fill(0);
  for (let index = 0; index < count; index += 1)
    input[index] = samples[first + index]! * (0.5 - 0.5 * Math.cos((2 * Math.PI * index) / count));
  const output = fft.createComplexArray();
  fft.realTransform(output, input);
  const level = (bin: number) => Math.log(Math.hypot(output[2 * bin]!, output[2 * bin + 1]!));
  const binOf = (hertz: number) => Math.round((hertz * SIZE) / sampleRateHz);
  let best = binOf(expectedHz);
  for (let bin = binOf(expectedHz / 2 ** (1 / 12)); bin <= binOf(expectedHz * 2 ** (1 / 12)); bin += 1)
    if (level(bin) > level(best)) best = bin;
  const [left, middle, right] = [level(best - 1), level(best), level(best + 1)];
  const shift = (0.5 * (left - right)) / (left - 2 * middle + right);
  return hertzRatioToCents(expectedHz, ((best + shift) * sampleRateHz) / SIZE);
}
