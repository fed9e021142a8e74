import type { ArrivalEvidence } from "./arrivalEvidence";
import type { LogisticModel } from "./LogisticModel";
import type { PickEvidence } from "./pickEvidence";
import type { PresenceEvidence } from "./steelPresence";

/** The fitted models by which notes, glides and their player are weighed. */
export interface NoteOdds {
  /** Whether a steel plays in the stretch at all. */
  presence: LogisticModel<keyof PresenceEvidence>;
  /** Whether a candidate is a pick. */
  pick: LogisticModel<keyof PickEvidence>;
  /** Whether it is a pick of the steel, where one plays. */
  steelPick: LogisticModel<keyof PickEvidence>;
  /** Whether a candidate is the arrival of a glide. */
  arrival: LogisticModel<keyof ArrivalEvidence>;
}

/**
 * Fitted by `tests/quality/notes/fitNoteOdds.ts` over annotated recordings, each with the same weight. They belong to
 * the weights of the network that lie beside them and are fitted anew when those change.
 */
export const NOTE_ODDS: NoteOdds = {
  presence: { bias: -0.029, weights: { steel: 2.64, arrivals: 1.151 } },
  pick: {
    bias: -1.777,
    weights: {
      onset: 0.27,
      mass: 2.36,
      sounding: 0.466,
      held: -2.266,
      lowerOnset: -1.495,
      neighbourOnset: -0.87,
    },
  },
  steelPick: {
    bias: 0.958,
    weights: {
      onset: 1.559,
      onsetOfSteel: 0.377,
      steel: 0.954,
      melody: 0.67,
      held: -3.108,
      heldRise: 1.807,
      company: -3.597,
      mass: 1.18,
    },
  },
  arrival: {
    bias: -1.965,
    weights: {
      arrival: -1.004,
      mass: 1.363,
      arrivalOfSteel: 1.61,
      sounding: 0.453,
      left: -1.575,
      leftBySteel: 2.093,
      lowerArrival: -3.892,
    },
  },
};
