import { BARS_CERTAINTY, BEATS_CERTAINTY } from "./beatParameters";
import type { Certainty } from "./Hearing";
import { fromLogOdds } from "./logOdds";
import type { TappedLevel } from "./tappedLevels";

/** How the bars stand against other readings of the same beats. */
export interface BarsStanding {
  /** Nats a beat over the next best: another metre, or the same bars begun some beats later. */
  margin: number;
  /** Share of the beats at which a bar is cut short or drawn out. */
  slips: number;
}

/**
 * How sure it is that people tap the best of the levels: a logistic function of the log odds that the conditional
 * logit gives it, chains that tap much the same taken together.
 */
export function chainCertainty(
  levels: readonly TappedLevel[],
  scores: readonly number[],
  best: TappedLevel,
): Certainty {
  const { bias, oddsWeight } = BEATS_CERTAINTY;
  return fromLogOdds(bias + oddsWeight * chainLogOdds(levels, scores, best));
}

/** How sure it is that bars begin where they are said to: a logistic function of how they stand. */
export function barsCertainty({ margin, slips }: BarsStanding): Certainty {
  const { bias, marginWeight, slipWeight, mostMargin } = BARS_CERTAINTY;
  return fromLogOdds(bias + marginWeight * Math.min(mostMargin, margin) - slipWeight * slips);
}

/** Log odds of the best level, and of those that tap much the same, against all others; within bounds. */
export function chainLogOdds(
  levels: readonly TappedLevel[],
  scores: readonly number[],
  best: TappedLevel,
): number {
  const top = scores[levels.indexOf(best)]!;
  let alike = 0;
  let others = 0;
  levels.forEach((level, i) => {
    const odds = Math.exp(scores[i]! - top);
    if (level === best || tapAlike(level.timesSec, best.timesSec)) alike += odds;
    else others += odds;
  });
  const { most } = BEATS_CERTAINTY;
  return Math.max(-most, Math.min(most, Math.log(alike / Math.max(others, 1e-12))));
}

/** Whether most beats of each have a beat of the other near by. */
function tapAlike(a: readonly number[], b: readonly number[]): boolean {
  const { alikeShare, alikeSec } = BEATS_CERTAINTY;
  let hits = 0;
  let at = 0;
  for (const time of a) {
    while (at + 1 < b.length && Math.abs(b[at + 1]! - time) <= Math.abs(b[at]! - time)) at += 1;
    if (Math.abs(b[at]! - time) <= alikeSec) hits += 1;
  }
  return 2 * hits >= alikeShare * (a.length + b.length);
}
