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
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 31 - 1;
  };
}
