import { hertzRatioToCents } from "@/lib/units/pitch";

/**
 * Fundamental of a steady stretch, by the lag at which it agrees best with itself; independent of how it was
 * made. The lag is sought near an expected period and refined by a parabola (J. O. Smith, "Spectral Audio Signal
 * Processing", section on quadratic interpolation of peaks), over several periods for precision.
 * @returns distance of the fundamental from `expectedHz`, in cents
 */
export function centsFrom(
  expectedHz: number,
  samples: Float32Array,
  sampleRateHz: number,
  startSec: number,
  lengthSec: number,
): number {
  const first = Math.round(startSec * sampleRateHz);
  const count = Math.round(lengthSec * sampleRateHz);
  const period = sampleRateHz / expectedHz;
  // A lag of some 40 ms makes a sample's error small in cents, and half a semitone still less than half a period.
  const periods = Math.min(12, Math.max(1, Math.round((0.04 * sampleRateHz) / period)));
  const centre = period * periods;
  const reach = Math.max(4, Math.ceil(centre * 0.03));
  const agreement = (lag: number) => {
    let product = 0;
    let energy = 0;
    for (let index = first; index < first + count; index += 1) {
      const a = samples[index]!;
      const b = samples[index + lag]!;
      product += a * b;
      energy += a * a + b * b;
    }
    return energy === 0 ? 0 : (2 * product) / energy;
  };
  let best = Math.round(centre);
  for (let lag = Math.round(centre) - reach; lag <= Math.round(centre) + reach; lag += 1) {
    if (agreement(lag) > agreement(best)) best = lag;
  }
  const [left, middle, right] = [agreement(best - 1), agreement(best), agreement(best + 1)];
  const shift = (0.5 * (left - right)) / (left - 2 * middle + right);
  return hertzRatioToCents(expectedHz, (periods * sampleRateHz) / (best + shift));
}

/** Strength of one frequency in a stretch, by a Hann-windowed sum against a turning pointer (a single DFT bin). */
export function strengthAt(
  hertz: number,
  samples: Float32Array,
  sampleRateHz: number,
  startSec: number,
  lengthSec: number,
): number {
  const first = Math.round(startSec * sampleRateHz);
  const count = Math.round(lengthSec * sampleRateHz);
  let real = 0;
  let imaginary = 0;
  for (let index = 0; index < count; index += 1) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / count);
    const turn = (2 * Math.PI * hertz * index) / sampleRateHz;
    real += samples[first + index]! * window * Math.cos(turn);
    imaginary += samples[first + index]! * window * Math.sin(turn);
  }
  return Math.hypot(real, imaginary) / count;
}
