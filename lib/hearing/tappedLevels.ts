import type { Seconds } from "@/lib/units/quantities";
import { BEAT_LEVEL, LEARNED_BEAT_LEVEL } from "./beatParameters";
import { trackBeats } from "./beatTracking";
import { type LevelFeatures, levelFeatures } from "./levelFeatures";
import type { BeatEvidence } from "./novelty";
import { tempoCandidates } from "./tempo";

/** Beats that were tracked at one of the levels of the metre, on the time axis of the evidence. */
export interface TappedLevel {
  timesSec: Seconds[];
  features: LevelFeatures;
}

/**
 * Every chain of beats that may be the one that people tap: those tracked at each candidate period, and each of them
 * moved on by a half and by thirds of a beat.
 */
export function tappedLevels(
  evidence: BeatEvidence,
  onCandidate?: (index: number, count: number) => void,
): TappedLevel[] {
  const curve = trackedCurve(evidence);
  const candidates = tempoCandidates(curve, evidence.frameRateHz);
  return candidates.flatMap(({ periodSec }, index) => {
    onCandidate?.(index, candidates.length);
    const tracked = trackBeats(curve, evidence.frameRateHz, periodSec).timesSec;
    if (tracked.length < BEAT_LEVEL.fewestBeats) return [];
    return BEAT_LEVEL.shifts.map((shift) => {
      const timesSec = shifted(tracked, shift);
      return { timesSec, features: levelFeatures(timesSec, evidence) };
    });
  });
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
