import type { Analysis } from "@/lib/cli/analysisJson";
import type { Glide } from "./metrics/glideScore";
import type { TimedNote } from "./metrics/noteMatching";

export interface PredictedNote extends TimedNote {
  role?: string;
  glides?: Glide[];
}

/** What the ear says of an item: what the command line prints, and notes where it hears them. */
export interface Prediction extends Analysis {
  /**
   * Pitches are absolute (A4 = 440 Hz); missing where the ear does not hear notes at all, which is told apart from
   * hearing none.
   */
  notes?: PredictedNote[];
}

/** The outcome for an item: what was heard, or why nothing was. */
export type Outcome = { computeSec: number } & ({ prediction: Prediction } | { fault: string });
