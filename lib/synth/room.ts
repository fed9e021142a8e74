import type { Hertz, Seconds } from "@/lib/units/quantities";

/** Delays of the four parallel combs and the two allpasses that follow (M. R. Schroeder, JAES 10(3), 1962). */
const COMB_SEC: readonly Seconds[] = [0.0297, 0.0371, 0.0411, 0.0437];
const ALLPASS_SEC: readonly Seconds[] = [0.005, 0.0017];
const ALLPASS_GAIN = 0.7;
/** Each echo loses treble, as walls take it (J. A. Moorer, "About this reverberation business", CMJ 3(2), 1979). */
const TREBLE_KEPT = 0.55;

/**
 * The answer of a small room to a sound, without the sound itself.
 * @param decaySec time in which the room falls by 60 dB
 * @param spreadSec added to every delay; another value for each ear makes the room wide
 */
export function answerOfRoom(
  input: Float32Array,
  sampleRateHz: Hertz,
  decaySec: Seconds,
  spreadSec: Seconds,
): Float32Array {
  const sum = new Float32Array(input.length);
  for (const delaySec of COMB_SEC) addComb(sum, input, sampleRateHz, delaySec + spreadSec, decaySec);
  return ALLPASS_SEC.reduce<Float32Array>(
    (sound, delaySec) => allpass(sound, Math.round((delaySec + spreadSec / 4) * sampleRateHz)),
    sum,
  );
}

function addComb(
  sum: Float32Array,
  input: Float32Array,
  sampleRateHz: Hertz,
  delaySec: Seconds,
  decaySec: Seconds,
): void {
  const loop = new Float32Array(Math.max(1, Math.round(delaySec * sampleRateHz)));
  const gain = 10 ** ((-3 * delaySec) / decaySec);
  let dull = 0;
  let at = 0;
  for (let index = 0; index < input.length; index += 1) {
    const echo = loop[at]!;
    dull += (echo - dull) * TREBLE_KEPT;
    loop[at] = input[index]! + dull * gain;
    sum[index]! += echo / COMB_SEC.length;
    at = at + 1 === loop.length ? 0 : at + 1;
  }
}

function allpass(input: Float32Array, delay: number): Float32Array {
  const out = new Float32Array(input.length);
  const loop = new Float32Array(Math.max(1, delay));
  let at = 0;
  for (let index = 0; index < input.length; index += 1) {
    const echo = loop[at]!;
    const fresh = input[index]! + ALLPASS_GAIN * echo;
    out[index] = echo - ALLPASS_GAIN * fresh;
    loop[at] = fresh;
    at = at + 1 === loop.length ? 0 : at + 1;
  }
  return out;
}
