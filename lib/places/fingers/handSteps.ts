import { brokenGlides } from "../brokenGlides";
import type { CostTerm } from "../Place";
import type { Weights } from "../weights";
import { type HandMoment, handMoveTerms, haste, restringCost, shapeMove, shiftCost } from "./fingerCost";
import type { FingerWeights } from "./fingerWeights";
import type { HandLayerInPart } from "./handLayer";

/** Costs of getting from a state of one layer to a state of the next. */
export class HandSteps {
  constructor(
    private readonly layers: readonly HandLayerInPart[],
    private readonly weights: FingerWeights,
    private readonly breaking: Pick<Weights, "brokenGlide">,
  ) {}

  /** Writes into `row` the cost of every step into state `to` of layer `at`. */
  readonly fill = (at: number, to: number, row: Float64Array): void => {
    const before = this.layers[at - 1]!;
    const { candidate, fingering, position } = this.layers[at]!.states[to]!;
    const { weights } = this;
    let state = 0;
    for (let from = 0; from < before.candidates.length; from += 1) {
      const there = before.candidates[from]!.fingering;
      const { broken, moment } = this.link(at, from, candidate);
      const hurry = haste(moment, weights);
      const shape = shapeMove(there, fingering);
      const same =
        broken === Number.POSITIVE_INFINITY
          ? broken
          : this.breaking.brokenGlide * broken + restringCost(there, fingering, moment.isGlide, weights);
      for (const origin of there.positions) {
        const shift = shiftCost(origin, position, weights) * hurry;
        row[state] = same + shift + (shape === position - origin ? weights.sameShape : 0);
        state += 1;
      }
    }
  };

  /** The step term by term; none where there is no such layer. */
  terms(at: number, from: number, to: number): CostTerm[] {
    const before = this.layers[at - 1]?.states[from];
    const now = this.layers[at]?.states[to];
    if (before === undefined || now === undefined) return [];
    const { broken, moment } = this.link(at, before.candidate, now.candidate);
    return [
      ...handMoveTerms(before, now, moment, this.weights),
      { name: "picked anew", cost: this.breaking.brokenGlide * broken },
    ];
  }

  /** How many glides break; infinite where a note that rings would change its string. */
  private link(at: number, from: number, to: number): { broken: number; moment: HandMoment } {
    const before = this.layers[at - 1]!;
    const now = this.layers[at]!;
    const { soundsOn, glide } = now.event;
    const there = before.candidates[from]!;
    const here = now.candidates[to]!;
    const broken = brokenGlides(
      soundsOn,
      now.isNext ? { sounding: there.sounding, strings: there.fingering.place.strings } : null,
      { sounding: here.sounding, strings: here.fingering.place.strings },
    );
    return { broken, moment: { timeSec: now.timeSec, isGlide: Boolean(glide) && broken === 0 } };
  }
}
