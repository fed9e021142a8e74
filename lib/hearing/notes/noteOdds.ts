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
  /** Whether the band strikes with it the note that the steel picks. */
  unison: LogisticModel<keyof PickEvidence>;
  /** Whether a candidate is the arrival of a glide. */
  arrival: LogisticModel<keyof ArrivalEvidence>;
}

/**
 * Fitted by `tests/quality/notes/fitNoteOdds.ts` over annotated recordings, each with the same weight. They belong to
 * the weights of the network that lie beside them and are fitted anew when those change.
 */
export const NOTE_ODDS: NoteOdds = {
  presence: { bias: 3.946, weights: { steel: 0.875, action: 1.985 } },
  pick: {
    bias: -3.374,
    weights: {
      mass: 2.646,
      sounding: 0.432,
      held: -2.248,
      lowerOnset: -1.209,
      arrival: -0.122,
      bandOnset: 0.19,
      bandAgain: 0.967,
      bandCompany: -0.112,
    },
  },
  steelPick: {
    bias: -1.681,
    weights: {
      mass: 2.439,
      steel: 0.624,
      melody: 0.743,
      held: -3.45,
      heldRise: 1.252,
      company: -4.055,
      left: 1.708,
      arrival: -0.458,
      steelOnset: 1.207,
    },
  },
  unison: { bias: -13.025, weights: { bandOnset: 0.912, bandCompany: 1.124, bandAgain: 3.164, mass: 3.826 } },
  arrival: {
    bias: -0.117,
    weights: { arrivalOfSteel: 1.666, sounding: 0.442, leftBySteel: 0.307, lowerArrival: -4.251 },
  },
};
