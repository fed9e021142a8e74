import { median } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { trackBeats } from "./beatTracking";
import type { Certainty } from "./Hearing";
import type { BeatEvidence } from "./novelty";
import { BEAT_LEVEL, LEARNED_BEAT_LEVEL, ONSETS } from "./parameters";
import { tempoCandidates } from "./tempo";

/** A chain of beats over the whole record, and how sure its level and phase are. */
export interface BeatChain {
  timesSec: Seconds[];
  confidence: Certainty;
}

/**
 * The beats of the record. Each candidate period is tracked; each chain is also tried shifted by a half and by
 * thirds of a beat; the chain that scores best is kept. The score is log-linear, as in a conditional logit
 * (D. McFadden, in "Frontiers in Econometrics", 1974): a log-normal preference for a moderate tempo
 * (D. Moelants, "Preferred tempo reconsidered", ICMPC 2002), onset strength on the beats,
 * how much of all onsets and changes of harmony the beats catch, and how unevenly harmony and bass are spread over
 * groups of two to four beats, since beats form bars. Where a learned ear heard beats too, they are tracked together
 * with the onsets and weigh in the score, with weights of their own.
 */
export function chooseBeats(
  evidence: BeatEvidence,
  durationSec: Seconds,
  onCandidate?: (index: number, count: number) => void,
): BeatChain {
  const curve = trackedCurve(evidence);
  const candidates = tempoCandidates(curve, evidence.frameRateHz);
  const chains: { timesSec: Seconds[]; score: number }[] = [];
  candidates.forEach((candidate, index) => {
    onCandidate?.(index, candidates.length);
    const tracked = trackBeats(curve, evidence.frameRateHz, candidate.periodSec);
    if (tracked.length < BEAT_LEVEL.fewestBeats) return;
    for (const shift of BEAT_LEVEL.shifts) {
      const timesSec = shifted(tracked, shift);
      chains.push({ timesSec, score: levelScore(timesSec, evidence) });
    }
  });
  chains.sort((a, b) => b.score - a.score);
  const best = chains[0];
  if (!best) return { timesSec: evenBeats(durationSec), confidence: 0 };
  const total = chains.reduce((sum, chain) => sum + Math.exp(chain.score - best.score), 0);
  return { timesSec: overWholeRecord(best.timesSec, durationSec), confidence: 1 / total };
}

/** Every beat moved on by a share of the way to the next. */
function shifted(beats: Seconds[], share: number): Seconds[] {
  if (share === 0) return beats;
  return beats.slice(0, -1).map((time, i) => time + share * (beats[i + 1]! - time));
}

/** What beats are tracked on: onsets, or a mixture of onsets and learned beats of about the same height. */
function trackedCurve({ onset, learned }: BeatEvidence): Float64Array {
  if (!learned) return onset;
  const { share, height } = LEARNED_BEAT_LEVEL;
  return onset.map((value, i) => (1 - share) * value + share * height * learned.beat[i]!);
}

function levelScore(beats: Seconds[], evidence: BeatEvidence): number {
  const { frameRateHz, learned } = evidence;
  const weights = learned ? LEARNED_BEAT_LEVEL : BEAT_LEVEL;
  const periodSec = median(intervals(beats));
  const octaves = Math.log2(60 / periodSec / BEAT_LEVEL.preferredBpm);
  const onset = sample(evidence.onset, beats, frameRateHz, 1);
  const harmony = sample(evidence.harmony, beats, frameRateHz, 0);
  const heard =
    -weights.tempoWeight * octaves ** 2 +
    weights.onsetWeight * mean(onset) +
    weights.onsetCaughtWeight * caughtPerSecond(evidence.onset, onset, periodSec) +
    weights.harmonyCaughtWeight * caughtPerSecond(evidence.harmony, harmony, periodSec) +
    weights.harmonyGroupWeight * groupAccent(harmony) +
    weights.lowGroupWeight * groupAccent(sample(evidence.low, beats, frameRateHz, 0));
  if (!learned) return heard;
  const onBeat = sample(learned.beat, beats, frameRateHz, 1);
  const onDownbeat = sample(learned.downbeat, beats, frameRateHz, 1);
  return (
    heard +
    LEARNED_BEAT_LEVEL.beatWeight * mean(onBeat) +
    LEARNED_BEAT_LEVEL.beatCaughtWeight * caughtPerSecond(learned.beat, onBeat, periodSec) +
    LEARNED_BEAT_LEVEL.downbeatCaughtWeight * caughtPerSecond(learned.downbeat, onDownbeat, periodSec) +
    LEARNED_BEAT_LEVEL.downbeatGroupWeight * groupAccent(onDownbeat)
  );
}

/** How much of a curve the beats catch over what chance would, a second: skipping every other beat gains nothing. */
function caughtPerSecond(curve: Float64Array, atBeats: number[], periodSec: Seconds): number {
  const chance = curve.reduce((sum, value) => sum + value, 0) / curve.length;
  return (mean(atBeats) - chance) / periodSec;
}

/** Values of a curve at the beats, the largest within `reach` frames. */
export function sample(curve: Float64Array, beats: Seconds[], frameRateHz: Hertz, reach: number): number[] {
  return beats.map((time) => {
    const frame = Math.round(time * frameRateHz);
    let peak = 0;
    for (let i = frame - reach; i <= frame + reach; i++) peak = Math.max(peak, curve[i] ?? 0);
    return peak;
  });
}

/** How far the strongest place in groups of two, three or four stands over the mean of the places. */
function groupAccent(values: number[]): number {
  let accent = 0;
  for (const group of [2, 3, 4]) {
    const means = Array.from({ length: group }, (_, place) =>
      mean(values.filter((_, i) => i % group === place)),
    );
    accent = Math.max(accent, Math.max(...means) - mean(means));
  }
  return accent;
}

function mean(values: number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function intervals(beats: Seconds[]): Seconds[] {
  return beats.slice(1).map((time, i) => time - beats[i]!);
}

/** Where nothing was tracked (silence, or too short): beats at an even, moderate tempo, so that a grid exists. */
function evenBeats(durationSec: Seconds): Seconds[] {
  const period = 60 / BEAT_LEVEL.fallbackBpm;
  return Array.from({ length: Math.floor(durationSec / period) + 1 }, (_, i) => i * period);
}

/** Takes off the delay of the onset curve and goes on with the local period to both ends of the record. */
function overWholeRecord(beats: Seconds[], durationSec: Seconds): Seconds[] {
  const steps = intervals(beats);
  const first = median(steps.slice(0, BEAT_LEVEL.edgeBeats));
  const last = median(steps.slice(-BEAT_LEVEL.edgeBeats));
  const whole = beats.map((time) => time - ONSETS.delaySec);
  while (whole[0]! - first >= 0) whole.unshift(whole[0]! - first);
  while (whole.at(-1)! + last <= durationSec) whole.push(whole.at(-1)! + last);
  return whole.filter((time) => time >= 0 && time <= durationSec);
}
