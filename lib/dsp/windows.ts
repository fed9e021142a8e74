/**
 * Window functions for short-time analysis, in the periodic ("DFT-even") form of F. J. Harris, "On the use of
 * windows for harmonic analysis with the discrete Fourier transform", Proc. IEEE 66 (1978): the window of
 * length N is one period of its cosine series, so that w[0] is its lowest point and w[N / 2] = 1.
 */

/** Hann window (Harris 1978, cosine to the power 2): highest side lobe -32 dB, noise bandwidth 1.5 bins. */
export function hannWindow(length: number): Float64Array {
  if (!Number.isInteger(length) || length < 1) {
    throw new RangeError(`A window needs a whole length of at least 1, not ${length}.`);
  }
  return Float64Array.from({ length }, (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / length));
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
