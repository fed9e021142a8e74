/** A source of samples from -1 to 1 (1 excluded). Passed in wherever noise is wanted, so that sound repeats exactly. */
export type Noise = () => number;

/**
 * Evenly spread noise from a seed, by a 32-bit xorshift generator with shifts 13, 17, 5 (G. Marsaglia, "Xorshift
 * RNGs", Journal of Statistical Software 8(14), 2003).
 * @param seed any integer; 0, which the generator could never leave, stands for 1
 */
export function seededNoise(seed: number): Noise {
  let state = seed >>> 0 || 1;
  return () => {
    state = nextState(state);
    return stateToSample(state);
  };
}

/** One step of the generator, for those who keep its state themselves. @param state 1 to 2^32 - 1 */
export function nextState(state: number): number {
  let next = state ^ (state << 13);
  next ^= next >>> 17;
  next ^= next << 5;
  return next >>> 0;
}

/** From -1 to 1 (1 excluded). */
export function stateToSample(state: number): number {
  return state / 2 ** 31 - 1;
}
