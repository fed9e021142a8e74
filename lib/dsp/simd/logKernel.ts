import { KernelWriter } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/**
 * Coefficients of (ln(1 + r) - r + r^2 / 2) / r^3 from r^8 down, for 1 + r between the roots of 1/2 and 2: those of
 * S. Moshier's Cephes library (logf.c, 1989), which keep to single precision.
 */
const TERMS = [
  7.0376836292e-2, -1.151461031e-1, 1.167699874e-1, -1.2420140846e-1, 1.4249322787e-1, -1.6668057665e-1,
  2.0000714765e-1, -2.4999993993e-1, 3.3333331174e-1,
];
/** Bits of the single float next to the root of 1/2. */
const HALF_ROOT_BITS = 0x3f3504f3;
const FRACTION_BITS = 23;

/**
 * In place, x = factor ln(1 + gain x) of numbers not below 0. Parameters: x, vectors of four (at least 1).
 */
export function logKernel(gain: number, factor: number): KernelFunction {
  const writer = new KernelWriter("log", 2);
  const [at, turns] = [0, 1] as const;
  const [x, power, y, square] = [writer.vector(), writer.vector(), writer.vector(), writer.vector()];
  writer.countDown(turns, () => {
    writer.load(at, 0).fourTimes(gain).multiply().fourTimes(1).add().set(x);
    // x = 2^power (1 + r): the exponent is read off the bits.
    writer.get(x).fourTimesWhole(HALF_ROOT_BITS).subtractWholes().shiftRight(FRACTION_BITS).set(power);
    writer.get(x).get(power).shiftLeft(FRACTION_BITS).subtractWholes().fourTimes(1).subtract().set(x);
    writer.get(power).toFloats().set(power);
    writer.multiplied(square, x, x);
    writer.fourTimes(TERMS[0]!).set(y);
    for (const term of TERMS.slice(1)) writer.get(y).get(x).multiply().fourTimes(term).add().set(y);
    writer.multiplied(y, y, x).multiplied(y, y, square);
    writer.get(square).fourTimes(-0.5).multiply().get(y).add().get(x).add();
    writer.get(power).fourTimes(Math.LN2).multiply().add().fourTimes(factor).multiply().set(y);
    writer.store(at, 0, y).step(at, 16);
  });
  return writer.function();
}
