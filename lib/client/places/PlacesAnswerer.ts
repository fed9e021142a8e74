import type { Copedent } from "@/lib/instrument/Copedent";
import { placePassage } from "../song/placePassage";
import { answerBench } from "./benchPlaces";
import type { PlacesOrder, PlacesWord } from "./placesMessages";

/** Answers orders by the pure rooms. */
export class PlacesAnswerer {
  private known: { text: string; copedent: Copedent } | null = null;

  answer(order: PlacesOrder): PlacesWord {
    try {
      const copedent = this.same(order.question.copedent);
      if (order.kind === "bench")
        return { kind: "bench", answer: answerBench({ ...order.question, copedent }) };
      const { notes, around } = order.question;
      return { kind: "passage", answer: placePassage(copedent, notes, around) };
    } catch (fault) {
      const why = fault instanceof Error ? fault.message : String(fault);
      return { kind: "fault", message: `Places could not be found (${why}). Nothing was changed.` };
    }
  }

  /** The copedent as it was given before, if it is the same: what was worked out of a neck is kept with it. */
  private same(copedent: Copedent): Copedent {
    const text = JSON.stringify(copedent);
    if (this.known?.text !== text) this.known = { text, copedent };
    return this.known.copedent;
  }
}
