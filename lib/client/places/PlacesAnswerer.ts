import type { Copedent } from "@/lib/instrument/Copedent";
import { carryOver } from "../song/carryOver";
import { otherGrips } from "../song/otherGrips";
import { partOnGuitar } from "../song/partOnGuitar";
import { placeAnew } from "../song/placeAnew";
import { placePassage } from "../song/placePassage";
import { answerBench } from "./benchPlaces";
import type { PlacesAnswer, PlacesOrder } from "./placesMessages";
import { warmUp } from "./warmUp";

/** Answers orders by the pure rooms. */
export class PlacesAnswerer {
  private known: { text: string; copedent: Copedent } | null = null;

  /** @param onProgress told how far a part is, 0 to 1; bench and passages do not tell */
  answer(order: PlacesOrder, onProgress?: (fraction: number) => void): PlacesAnswer {
    try {
      switch (order.kind) {
        case "bench": {
          const copedent = this.same(order.question.copedent);
          return { kind: "bench", answer: answerBench({ ...order.question, copedent }) };
        }
        case "passage": {
          const { notes, around } = order.question;
          return {
            kind: "passage",
            answer: placePassage(this.same(order.question.copedent), notes, around),
          };
        }
        case "anew": {
          const { part, from, key, changes } = order.question;
          const to = this.same(order.question.to);
          const read = partOnGuitar(part, from, to);
          return { kind: "anew", answer: placeAnew(read, from, to, { key, changes, onProgress }) };
        }
        case "carry": {
          const to = this.same(order.question.to);
          return { kind: "carry", answer: carryOver({ ...order.question, to }, onProgress) };
        }
        case "grips": {
          const copedent = this.same(order.question.copedent);
          return { kind: "grips", answer: otherGrips({ ...order.question, copedent }) };
        }
      }
    } catch (fault) {
      const why = fault instanceof Error ? fault.message : String(fault);
      return { kind: "fault", message: `Places could not be found (${why}). Nothing was changed.` };
    }
  }

  /** Rounds of work by which later answers on that copedent come sooner; to be gone through while nothing is asked. */
  warmUp(copedent: Copedent): Iterator<void> {
    return warmUp(this.same(copedent));
  }

  /** The copedent as it was given before, if it is the same: what was worked out of a neck is kept with it. */
  private same(copedent: Copedent): Copedent {
    const text = JSON.stringify(copedent);
    if (this.known?.text !== text) this.known = { text, copedent };
    return this.known.copedent;
  }
}
