import { reliability } from "../metrics/reliability";
import type { QualityCheck } from "../QualityCheck";
import type { JudgedFit } from "./judgeFit";

/** What a set of fits must keep to be called calibrated. */
export interface CalibrationBounds {
  /** Of what reads `SURE_FROM` or more, the least share that is right. */
  sureRightAtLeast: number;
  /** The most expected calibration error. */
  errorAtMost: number;
}

/** What reads as well as this is said to be right nine times in ten. */
const SURE_FROM = 0.9;

/**
 * Whether fits can be taken at their word. A right guess weighs 1 and its near misses 1 together, as when the weights were
 * fitted: near misses are many, so that of the readings counted one by one fewer are right, which is told beside the share. Where nothing was judged, or nothing reads so well, it fails.
 * @param fits of one set, by weights that were fitted without their records
 */
export function checkCalibration(
  set: string,
  fits: readonly JudgedFit[],
  { sureRightAtLeast, errorAtMost }: CalibrationBounds,
): QualityCheck[] {
  const judgements = fits.flatMap((fit) => fit.judgements);
  const sure = judgements.filter(({ said }) => said >= SURE_FROM);
  const right = sure.filter((one) => one.right);
  const weightOf = (of: typeof sure) => of.reduce((sum, { weight }) => sum + weight, 0);
  const share = weightOf(right) / weightOf(sure);
  const found = reliability(judgements);
  return [
    {
      name: `set ${set}: fits of ${SURE_FROM} and more that are right, a guess and its near misses counted alike`,
      passed: sure.length > 0 && share >= sureRightAtLeast,
      detail:
        sure.length > 0
          ? `${share.toFixed(4)} of at least ${sureRightAtLeast} (counted one by one, ${right.length} of ${sure.length} readings)`
          : `none of ${judgements.length} readings is as high`,
    },
    {
      name: `set ${set}: expected calibration error of fits`,
      passed: found !== null && found.expectedCalibrationError <= errorAtMost,
      detail: found
        ? `${found.expectedCalibrationError.toFixed(4)} of at most ${errorAtMost} (${found.count} readings)`
        : "nothing was judged by weights that were fitted without it",
    },
  ];
}
