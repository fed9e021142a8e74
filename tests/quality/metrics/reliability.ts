/** Something said with a certainty, and whether it was right. */
export interface Judgement {
  /** 0 to 1. */
  said: number;
  right: boolean;
  /** Seconds, or 1 for a thing that counts once. */
  weight: number;
}

/** Judgements of like certainty. */
export interface ReliabilityBin {
  /** Its edges; of bins of one weight the least and the most certainty in it. */
  from: number;
  to: number;
  /** Mean certainty, by weight. */
  said: number;
  /** Share that was right, by weight. */
  right: number;
  weight: number;
}

export interface Reliability {
  bins: ReliabilityBin[];
  /**
   * Expected calibration error: how far said and right stand apart, bin by bin, by weight (M. P. Naeini, G. F. Cooper,
   * M. Hauskrecht, AAAI 2015; C. Guo et al., ICML 2017).
   */
  expectedCalibrationError: number;
  /** Mean squared distance of what was said from what was (1 right, 0 wrong; G. W. Brier 1950, here for one event). */
  brier: number;
  weight: number;
  count: number;
}

const BINS = 10;
/** Fewer judgements than this for each bin say little; there are then fewer bins, of the same weight. */
const FEWEST_IN_BIN = 8;

/** @returns null where there is nothing to judge */
export function reliability(judgements: readonly Judgement[]): Reliability | null {
  const judged = judgements.filter(({ weight }) => weight > 0);
  if (judged.length === 0) return null;
  const bins =
    judged.length >= BINS * FEWEST_IN_BIN
      ? binsByWidth(judged, BINS)
      : binsByMass(judged, Math.max(1, Math.floor(judged.length / FEWEST_IN_BIN)));
  const weight = total(judged);
  const apart = bins.reduce((sum, bin) => sum + bin.weight * Math.abs(bin.said - bin.right), 0);
  const squares = judged.reduce(
    (sum, { said, right, weight: w }) => sum + w * (said - (right ? 1 : 0)) ** 2,
    0,
  );
  return {
    bins,
    expectedCalibrationError: apart / weight,
    brier: squares / weight,
    weight,
    count: judged.length,
  };
}

/** Bins of one width from 0 to 1, those with anything in them, each without its upper edge but the last. */
export function binsByWidth(judged: readonly Judgement[], count: number): ReliabilityBin[] {
  const bins = Array.from({ length: count }, (): Judgement[] => []);
  // The nudge keeps 0.3, which is a little less than three tenths, out of the bin below it.
  for (const judgement of judged)
    bins[Math.max(0, Math.min(count - 1, Math.floor(judgement.said * count + 1e-9)))]!.push(judgement);
  return bins.flatMap((bin, i) => (bin.length > 0 ? [binOf(bin, i / count, (i + 1) / count)] : []));
}

/** Bins with about one weight each, from the least certain on; equal certainties stay together. */
export function binsByMass(judged: readonly Judgement[], count: number): ReliabilityBin[] {
  const sorted = [...judged].sort((a, b) => a.said - b.said);
  const share = total(sorted) / count;
  const bins: Judgement[][] = [];
  let filled = 0;
  for (const judgement of sorted) {
    const last = bins.at(-1);
    const wantsNext = filled >= share * bins.length - 1e-9;
    if (!last || (wantsNext && last.at(-1)!.said !== judgement.said)) bins.push([judgement]);
    else last.push(judgement);
    filled += judgement.weight;
  }
  return bins.map((bin) => binOf(bin, bin[0]!.said, bin.at(-1)!.said));
}

function binOf(judged: readonly Judgement[], from: number, to: number): ReliabilityBin {
  const weight = total(judged);
  const mean = (value: (judgement: Judgement) => number) =>
    judged.reduce((sum, judgement) => sum + judgement.weight * value(judgement), 0) / weight;
  return {
    from,
    to,
    said: mean((judgement) => judgement.said),
    right: mean(({ right }) => (right ? 1 : 0)),
    weight,
  };
}

function total(judged: readonly Judgement[]): number {
  return judged.reduce((sum, { weight }) => sum + weight, 0);
}
