import type { Analysis } from "@/lib/cli/analysisJson";
import type { Hearing } from "@/lib/hearing/Hearing";
import type { ScoredNote } from "@/lib/scoring/scoredNote";
import type { JudgedFit } from "./fit/judgeFit";

/** What the ear says of a record: what the command line prints, and notes where it hears them. */
export interface Prediction extends Analysis {
  /** The whole hearing: certainties, next-best guesses, and how the beat divides. */
  hearing: Hearing;
  /**
   * Pitches are absolute (A4 = 440 Hz); missing where the ear does not hear notes at all, which is told apart from
   * hearing none.
   */
  notes?: ScoredNote[];
  /** How what is known of the record reads against it, beside its near misses. */
  fits: JudgedFit[];
}

/** The outcome for a record: what was heard, or why nothing was. */
export type Outcome = {
  /** Work of the one thread that decoded and heard, without what else ran; null where the machine does not tell. */
  cpuSec: number | null;
} & ({ prediction: Prediction } | { fault: string });
