/** A record whose samples never rise above this holds nothing to hear: about the tenth bit of a 16-bit record. */
export const SILENCE_DBFS = -60;

/** Largest absolute sample of all channels. */
export function peakOf(channels: readonly Float32Array[]): number {
  let peak = 0;
  for (const channel of channels) {
    for (let i = 0; i < channel.length; i++) {
      const level = Math.abs(channel[i]!);
      if (level > peak) peak = level;
    }
  }
  return peak;
}

/** Level against full scale (1), in decibels; -Infinity for 0. */
export function toDbfs(level: number): number {
  return 20 * Math.log10(level);
}
