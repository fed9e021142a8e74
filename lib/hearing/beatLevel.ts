import { median } from "@/lib/dsp/running";
import type { Seconds } from "@/lib/units/quantities";
import { beatDivision } from "./beatDivision";
import { BEAT_LEVEL, LEARNED_LEVEL_WEIGHTS, LEVEL_WEIGHTS } from "./beatParameters";
import { freeStretches } from "./freeTime";
import { chainCertainty } from "./gridCertainty";
import type { Certainty, HeardStretch } from "./Hearing";
import { intervals, type LevelFeature, type LevelFeatures } from "./levelFeatures";
import type { BeatEvidence } from "./novelty";
import { ONSETS } from "./parameters";
import { tappedLevels } from "./tappedLevels";

/** The beats of a record, from its beginning to its end. */
export interface BeatChain {
  timesSec: Seconds[];
  /** Parts that a beat falls into. */
  division: 2 | 3;
  /** Where no steady beat is heard, in order. */
  freeStretches: HeardStretch[];
  /** How sure it is that people tap these beats. */
  confidence: Certainty;
}

/**
 * The beats of the record. Of all {@link tappedLevels} the one that scores best is kept. The score is log-linear, as in
 * a conditional logit (D. McFadden, in "Frontiers in Econometrics", 1974), over what the ears hear at the beats (see
 * {@link levelFeatures}). Places in the bar are found afterwards, on these beats: over annotated recordings, adding the
 * likelihood of the best bars to the score, so that beats and bars are chosen in one, got no more levels right.
 */
export function chooseBeats(
  evidence: BeatEvidence,
  durationSec: Seconds,
  onCandidate?: (index: number, count: number) => void,
): BeatChain {
  const levels = tappedLevels(evidence, onCandidate);
  const scores = levels.map(({ features }) => levelScore(features, evidence));
  const best = levels[scores.indexOf(Math.max(...scores))];
  if (!best) {
    const wholeRecord = { startSec: 0, endSec: durationSec };
    return {
      timesSec: evenBeats(durationSec),
      division: 2,
      freeStretches: [wholeRecord],
      confidence: 0,
    };
  }
  const timesSec = overWholeRecord(best.timesSec, durationSec);
  return {
    timesSec,
    freeStretches: freeStretches(timesSec, evidence, durationSec),
    division: beatDivision(best.timesSec, evidence),
    confidence: chainCertainty(levels, scores, best),
  };
}

function levelScore(features: LevelFeatures, { learned }: BeatEvidence): number {
  const weights: Partial<Record<LevelFeature, number>> = learned ? LEARNED_LEVEL_WEIGHTS : LEVEL_WEIGHTS;
  let score = 0;
  for (const feature of Object.keys(weights) as LevelFeature[]) {
    score += weights[feature]! * features[feature];
  }
  return score;
}

/** Where nothing was tracked (silence, or too short): beats at an even, moderate tempo, so that a grid exists. */
function evenBeats(durationSec: Seconds): Seconds[] {
  const period = 60 / BEAT_LEVEL.fallbackBpm;
  return Array.from({ length: Math.floor(durationSec / period) + 1 }, (_, i) => i * period);
}

/**
 * Takes off the delay of the onset curve, goes on with the local period to both ends of the record, and counts on
 * through breaks that are longer than a held beat.
 */
function overWholeRecord(beats: Seconds[], durationSec: Seconds): Seconds[] {
  const steps = intervals(beats);
  const first = median(steps.slice(0, BEAT_LEVEL.edgeBeats));
  const last = median(steps.slice(-BEAT_LEVEL.edgeBeats));
  const whole: Seconds[] = [];
  beats.forEach((time, i) => {
    whole.push(time - ONSETS.delaySec);
    const step = steps[i];
    if (step === undefined) return;
    const near = median(steps.slice(Math.max(0, i - BEAT_LEVEL.edgeBeats), i + BEAT_LEVEL.edgeBeats));
    const parts = step > BEAT_LEVEL.longestHold * near ? Math.round(step / near) : 1;
    for (let part = 1; part < parts; part++) whole.push(time + (part / parts) * step - ONSETS.delaySec);
  });
  while (whole[0]! - first >= 0) whole.unshift(whole[0]! - first);
  while (whole.at(-1)! + last <= durationSec) whole.push(whole.at(-1)! + last);
  return whole.filter((time) => time >= 0 && time <= durationSec);
}
