import type { LogisticModel } from "@/lib/hearing/notes/LogisticModel";

/** The fitted models by which guesses are weighed; terms may be products (weigh.ts). */
export interface FitOdds {
  /** Whether a note sounds, whoever plays it. */
  sounds: LogisticModel<string>;
  /** Whether a note that sounds is played with some others by one player. */
  belongs: LogisticModel<string>;
  /** Whether a set of notes is what one player plays. */
  set: LogisticModel<string>;
  /** Whether a chord label is right. */
  chord: LogisticModel<string>;
  /** Whether a key is right. */
  key: LogisticModel<string>;
}
