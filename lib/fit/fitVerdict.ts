import { logOdds } from "@/lib/hearing/logOdds";
import type { NearNotes, NotesFit } from "./FitAnswer";
import type { Difference } from "./nearMisses";

/** What is to be said of notes as they are written, against the record. */
export type VerdictKind =
  | "fits"
  /** Written too low, too high: a half or a whole step. */
  | "low"
  | "high"
  | "octave"
  /** One more note is heard with them; one of them is not heard. */
  | "missing"
  | "extra"
  /** Neither they nor anything near reads well. */
  | "unclear";

export interface FitVerdict {
  kind: VerdictKind;
  /** The near miss that reads better; null where none does. */
  better: NearNotes | null;
}

/** From this fit on a guess counts as heard. */
const HEARD_FROM = 0.5;
/** What reads as well as this fits, whatever else does too: a note of another player may read well with it. */
export const FITS_FROM = 0.7;
/**
 * A near miss must read so much better, nats: three times the odds. This and the fits above were chosen once, by hand, by
 * how often they mark what is right and what is wrong of annotated steels and a voice. That was not held against records
 * that had no part in the choice, so that no share is claimed for it.
 */
const BETTER_BY = Math.log(3);
/** No fit counts as nearer to 0 or 1 than this. */
const SUREST = 1e-4;

/** What the record says of notes as they are written. */
export function verdictOf({ fit, nearest }: NotesFit): FitVerdict {
  const [best] = nearest;
  const ahead = best ? logOdds(best.fit, SUREST) - logOdds(fit, SUREST) : Number.NEGATIVE_INFINITY;
  if (best && fit < FITS_FROM && best.fit >= HEARD_FROM && ahead >= BETTER_BY)
    return { kind: kindOf(best.change), better: best };
  return { kind: fit >= HEARD_FROM ? "fits" : "unclear", better: null };
}

function kindOf(change: Difference): VerdictKind {
  switch (change.kind) {
    case "with":
      return "missing";
    case "without":
      return "extra";
    case "moved":
      if (Math.abs(change.by) === 12) return "octave";
      return change.by < 0 ? "high" : "low";
  }
}
