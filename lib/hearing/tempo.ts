import { runningMean } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { TEMPO } from "./beatParameters";

/** A beat period the record may have. */
export interface TempoCandidate {
  periodSec: Seconds;
  /** How well onsets repeat at this period and its multiples; 0 (not) to about 1. */
  salience: number;
}

/**
 * Periods at which the onsets of the record repeat, strongest first: the autocorrelation of onset strength
 * (D. Ellis, "Beat tracking by dynamic programming", JNMR 36 (2007)), summed over the first multiples of each
 * period so that a period is as good as the metre over it. The strongest periods' halves, doubles, thirds and
 * triples are among the candidates, since which level of the metre is the beat is settled later.
 */
export function tempoCandidates(onset: Float64Array, frameRateHz: Hertz): TempoCandidate[] {
  const longest = Math.ceil((TEMPO.multiples * 60 * frameRateHz) / TEMPO.slowestBpm) + 2;
  const correlation = runningMean(autocorrelation(onset, longest), 1);
  const salience = (period: number): number => {
    let sum = 0;
    let weights = 0;
    for (let k = 1; k <= TEMPO.multiples; k++) {
      sum += peakNear(correlation, k * period) / k;
      weights += 1 / k;
    }
    return sum / weights;
  };
  const shortest = (60 * frameRateHz) / TEMPO.fastestBpm;
  const slowest = (60 * frameRateHz) / TEMPO.slowestBpm;
  const peaks: { period: number; salience: number }[] = [];
  const curve: number[] = [];
  for (let step = 0; shortest * TEMPO.periodStep ** step <= slowest; step++) {
    curve.push(salience(shortest * TEMPO.periodStep ** step));
  }
  for (let step = 0; step < curve.length; step++) {
    const at = curve[step]!;
    if (at < (curve[step - 1] ?? 0) || at <= (curve[step + 1] ?? 0)) continue;
    peaks.push({ period: shortest * TEMPO.periodStep ** step, salience: at });
  }
  peaks.sort((a, b) => b.salience - a.salience);
  const found: { period: number; salience: number }[] = [];
  for (const peak of peaks.slice(0, TEMPO.strongest)) {
    for (const ratio of TEMPO.ratios) {
      const period = peak.period * ratio;
      if (period < shortest || period > slowest) continue;
      const known = found.find((other) => Math.abs(Math.log(other.period / period)) < TEMPO.sameRatio);
      if (!known) found.push({ period, salience: salience(period) });
    }
  }
  return found
    .map(({ period, salience: value }) => ({ periodSec: period / frameRateHz, salience: value }))
    .sort((a, b) => b.salience - a.salience);
}

/** Autocorrelation for lags 0 to `longest`, mean taken off, scaled to 1 at lag 0. */
function autocorrelation(curve: Float64Array, longest: number): Float64Array {
  const mean = curve.reduce((sum, value) => sum + value, 0) / Math.max(1, curve.length);
  const centred = curve.map((value) => value - mean);
  const result = new Float64Array(longest + 1);
  for (let lag = 0; lag <= longest && lag < centred.length; lag++) {
    let sum = 0;
    for (let i = lag; i < centred.length; i++) sum += centred[i]! * centred[i - lag]!;
    result[lag] = sum / (centred.length - lag);
  }
  const power = result[0]!;
  return power > 0 ? result.map((value) => value / power) : result;
}

/** The largest value within one frame, or within 2 % where that is wider, of a lag. */
function peakNear(correlation: Float64Array, lag: number): number {
  const reach = Math.max(1, 0.02 * lag);
  let peak = Number.NEGATIVE_INFINITY;
  for (let k = Math.round(lag - reach); k <= Math.round(lag + reach); k++) {
    peak = Math.max(peak, correlation[k] ?? 0);
  }
  return peak;
}
