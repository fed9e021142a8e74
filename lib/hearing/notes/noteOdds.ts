import type { ArrivalEvidence } from "./arrivalEvidence";
import type { LogisticModel } from "./LogisticModel";
import type { PickEvidence } from "./pickEvidence";
import type { PresenceEvidence } from "./presenceEvidence";

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
  presence: { bias: 3.217, weights: { steel: 1.755, action: 2.106 } },
  pick: {
    bias: -3.675,
    weights: { mass: 2.829, sounding: 0.482, held: -2.323, lowerOnset: -1.364, arrival: -0.201 },
  },
  steelPick: {
    bias: -0.576,
    weights: {
      mass: 2.328,
      steel: 0.393,
      melody: 0.588,
      held: -2.708,
      heldRise: 1.104,
      company: -4.46,
      left: 1.506,
      arrival: -0.308,
      steelOnset: 1.42,
    },
  },
  arrival: {
    bias: 0.833,
    weights: { arrivalOfSteel: 2.17, sounding: 0.327, leftBySteel: 0.84, lowerArrival: -4.768 },
  },
};
