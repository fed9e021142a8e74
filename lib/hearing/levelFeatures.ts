import { median } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BEAT_LEVEL } from "./beatParameters";
import type { BeatEvidence } from "./novelty";

/** What speaks for a chain of beats at the level that people tap; each is weighed by a parameter of its name. */
const SIGNAL_FEATURES = [
  "tempo",
  "onset",
  "onsetCaught",
  "harmonyCaught",
  "harmonyGroup",
  "lowGroup",
] as const;
/** The same by a learned ear. */
const LEARNED_FEATURES = ["beat", "beatCaught", "downbeatCaught"] as const;

export type LevelFeature = (typeof SIGNAL_FEATURES)[number] | (typeof LEARNED_FEATURES)[number];
export type LevelFeatures = Record<LevelFeature, number>;

/**
 * Onset strength on the beats; how much of all onsets and changes of harmony the beats catch; how unevenly harmony and
 * bass are spread over groups of two to four beats, since beats form bars; what the beats are to a learned ear and catch
 * of its beats and downbeats, 0 without one; and how far the tempo is from a moderate one, in octaves squared, as in the window
 * over periods of D. Ellis, "Beat tracking by dynamic programming", JNMR 36 (2007).
 * @param beats at least two, in order, on the time axis of the evidence
 */
export function levelFeatures(beats: readonly Seconds[], evidence: BeatEvidence): LevelFeatures {
  const { frameRateHz, learned } = evidence;
  const periodSec = median(intervals(beats));
  const at = (curve: Float64Array | undefined, reach: number): number[] =>
    curve ? sample(curve, beats, frameRateHz, reach) : [];
  const caught = (curve: Float64Array | undefined, atBeats: number[]): number =>
    curve ? (meanOf(atBeats) - meanOf(curve)) / periodSec : 0;
  const onset = at(evidence.onset, 1);
  const harmony = at(evidence.harmony, 0);
  const beat = at(learned?.beat, 1);
  const downbeat = at(learned?.downbeat, 1);
  return {
    tempo: -(Math.log2(60 / periodSec / BEAT_LEVEL.preferredBpm) ** 2),
    onset: meanOf(onset),
    onsetCaught: caught(evidence.onset, onset),
    harmonyCaught: caught(evidence.harmony, harmony),
    harmonyGroup: groupAccent(harmony),
    lowGroup: groupAccent(at(evidence.low, 0)),
    beat: meanOf(beat),
    beatCaught: caught(learned?.beat, beat),
    downbeatCaught: caught(learned?.downbeat, downbeat),
  };
}

/** Values of a curve at the beats, the largest within `reach` frames. */
export function sample(
  curve: Float64Array,
  beats: readonly Seconds[],
  frameRateHz: Hertz,
  reach: number,
): number[] {
  return beats.map((time) => {
    const frame = Math.round(time * frameRateHz);
    let peak = 0;
    for (let i = frame - reach; i <= frame + reach; i++) peak = Math.max(peak, curve[i] ?? 0);
    return peak;
  });
}

export function intervals(beats: readonly Seconds[]): Seconds[] {
  return beats.slice(1).map((time, i) => time - beats[i]!);
}

/** How far the strongest place in groups of two, three or four stands over the mean of the places. */
function groupAccent(values: readonly number[]): number {
  let accent = 0;
  for (const group of [2, 3, 4]) {
    const sums = new Float64Array(group);
    const counts = new Float64Array(group);
    values.forEach((value, i) => {
      sums[i % group]! += value;
      counts[i % group]! += 1;
    });
    const means = sums.map((sum, place) => sum / Math.max(1, counts[place]!));
    accent = Math.max(accent, Math.max(...means) - meanOf(means));
  }
  return accent;
}

function meanOf(values: Float64Array | readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return values.length === 0 ? 0 : sum / values.length;
}
