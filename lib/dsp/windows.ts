/**
 * Window functions for short-time analysis, in the periodic ("DFT-even") form of F. J. Harris, "On the use of
 * windows for harmonic analysis with the discrete Fourier transform", Proc. IEEE 66 (1978): the window of
 * length N is one period of its cosine series, so that w[0] is its lowest point and w[N / 2] = 1.
 */

/** A cosine-sum window w[n] = a0 - a1 cos(2 pi n / N) + a2 cos(4 pi n / N) - a3 cos(6 pi n / N). */
function cosineSum(length: number, coefficients: readonly number[]): Float64Array {
  if (!Number.isInteger(length) || length < 1) {
    throw new RangeError(`A window needs a whole length of at least 1, not ${length}.`);
  }
  const window = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    let value = 0;
    for (let k = 0; k < coefficients.length; k++) {
      value += (k % 2 === 0 ? 1 : -1) * coefficients[k]! * Math.cos((2 * Math.PI * k * n) / length);
    }
    window[n] = value;
  }
  return window;
}

/** Hann window (Harris 1978, cosine to the power 2): highest side lobe -32 dB, noise bandwidth 1.5 bins. */
export function hannWindow(length: number): Float64Array {
  return cosineSum(length, [0.5, 0.5]);
}

/** Hamming window (Harris 1978, with 0.54 and 0.46): highest side lobe about -43 dB, 1.36 bins. */
export function hammingWindow(length: number): Float64Array {
  return cosineSum(length, [0.54, 0.46]);
}

/** Minimum four-term Blackman-Harris window (Harris 1978, table 1): highest side lobe -92 dB, 2.00 bins. */
export function blackmanHarrisWindow(length: number): Float64Array {
  return cosineSum(length, [0.35875, 0.48829, 0.14128, 0.01168]);
}

/** Modified Bessel function of the first kind and order 0, by its power series, to double precision. */
export function besselI0(x: number): number {
  const quarter = (x * x) / 4;
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= quarter / (k * k);
    sum += term;
  }
  return sum;
}

/**
 * One point of the Kaiser window, I0(beta sqrt(1 - x^2)) / I0(beta).
 * J. F. Kaiser, "Nonrecursive digital filter design using the I0-sinh window function", ISCAS 1974.
 * @param x place in the window, -1 to 1; outside it the window is 0
 * @param beta shape; 0 is the rectangle, larger is smoother
 */
export function kaiserAt(x: number, beta: number): number {
  const inside = 1 - x * x;
  return inside < 0 ? 0 : besselI0(beta * Math.sqrt(inside)) / besselI0(beta);
}

/** The beta that reaches a stop-band attenuation of at least 50 dB (Kaiser 1974). */
export function kaiserBeta(attenuationDb: number): number {
  if (attenuationDb < 50) {
    throw new RangeError(`This form of Kaiser's rule holds from 50 dB up, not for ${attenuationDb} dB.`);
  }
  return 0.1102 * (attenuationDb - 8.7);
}

/** Harris 1978, "coherent gain": the mean of the window, its answer to a constant. */
export function coherentGain(window: Float64Array): number {
  return window.reduce((sum, value) => sum + value, 0) / window.length;
}

/** Harris 1978, "equivalent noise bandwidth" in bins: N sum(w^2) / sum(w)^2. */
export function noiseBandwidthBins(window: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (const value of window) {
    sum += value;
    squares += value * value;
  }
  return (window.length * squares) / (sum * sum);
}

/**
 * Magnitude of the Hann window's transform, relative to its centre, `offsetBins` away from it:
 * |sinc(x) / (1 - x^2)| with sinc(x) = sin(pi x) / (pi x) (Harris 1978). Zero at whole bins from 2 on.
 */
export function hannResponse(offsetBins: number): number {
  const x = Math.abs(offsetBins);
  if (x < 1e-9) return 1;
  if (Math.abs(x - 1) < 1e-6) return 0.5;
  return Math.abs(Math.sin(Math.PI * x) / (Math.PI * x) / (1 - x * x));
}
