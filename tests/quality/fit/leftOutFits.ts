import type { Prediction } from "../prediction";
import type { Subject } from "../Subject";
import type { JudgedFit } from "./judgeFit";
import { isLeftOut } from "./oddsOf";

/** The part of a case that fits are taken from. */
interface FittedCase {
  subject: Pick<Subject, "id">;
  prediction: Pick<Prediction, "fits"> | null;
}

/** What was held against the records of a set, by which weights it was judged. */
export interface FitsByWeights {
  /** By weights that were fitted without the record. */
  leftOut: JudgedFit[];
  leftOutCount: number;
  /** Records of which no fitting knows, judged by the weights that ship. */
  shippedCount: number;
}

export function fitsByWeights(cases: readonly FittedCase[]): FitsByWeights {
  const judged = cases.flatMap(({ subject: { id }, prediction }) =>
    prediction && prediction.fits.length > 0 ? [{ id, fits: prediction.fits }] : [],
  );
  const leftOut = judged.filter(({ id }) => isLeftOut(id));
  return {
    leftOut: leftOut.flatMap(({ fits }) => fits),
    leftOutCount: leftOut.length,
    shippedCount: judged.length - leftOut.length,
  };
}
