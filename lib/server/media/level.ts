import type { SampleReceiver } from "./SampleReceiver";

/** A record whose samples never rise above this holds nothing to hear: about the tenth bit of a 16-bit record. */
export const SILENCE_DBFS = -60;

/** Finds the largest absolute sample of all channels. */
export class PeakMeter implements SampleReceiver {
  peak = 0;

  begin(): void {}

  take(channels: readonly Float32Array[], count: number): void {
    for (const channel of channels) {
      for (let i = 0; i < count; i++) {
        const level = Math.abs(channel[i]!);
        if (level > this.peak) this.peak = level;
      }
    }
  }
}

/** Level against full scale (1), in decibels; -Infinity for 0. */
export function toDbfs(level: number): number {
  return 20 * Math.log10(level);
}
