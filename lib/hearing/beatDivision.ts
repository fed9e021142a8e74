import type { Seconds } from "@/lib/units/quantities";
import { BEAT_DIVISION } from "./beatParameters";
import type { BeatEvidence } from "./novelty";

/**
 * Whether beats fall into two or into three, by where the onsets between them stand: about the half, or about the
 * thirds. Swung off-beats stand near the second third (A. Friberg and A. Sundstroem, "Swing ratios and ensemble timing
 * in jazz performance", Music Perception 19 (2002): long to short from about 1:1 when fast to 3.5:1 when slow).
 * @param beats in order, on the time axis of the evidence
 */
export function beatDivision(
  beats: readonly Seconds[],
  { onset, frameRateHz }: Pick<BeatEvidence, "onset" | "frameRateHz">,
): 2 | 3 {
  const { half, thirds, leastStrength, leastRatio } = BEAT_DIVISION;
  const strength = (share: { from: number; to: number }): number =>
    leastStrength + meanPeak(onset, beats, frameRateHz, share);
  const atThirds = Math.max(...thirds.map(strength));
  return atThirds > leastRatio * strength(half) ? 3 : 2;
}

/** Mean over the beats of the strongest onset in a part of the beat, given as shares of it. */
function meanPeak(
  onset: Float64Array,
  beats: readonly Seconds[],
  frameRateHz: number,
  { from, to }: { from: number; to: number },
): number {
  let sum = 0;
  for (let i = 0; i + 1 < beats.length; i++) {
    const start = beats[i]!;
    const length = beats[i + 1]! - start;
    const last = Math.round((start + to * length) * frameRateHz);
    let peak = 0;
    for (let f = Math.round((start + from * length) * frameRateHz); f <= last; f++) {
      peak = Math.max(peak, onset[f] ?? 0);
    }
    sum += peak;
  }
  return sum / Math.max(1, beats.length - 1);
}
