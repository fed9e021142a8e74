import type { Copedent } from "@/lib/instrument/Copedent";
import type { PassageNote } from "../song/passageMoments";
import type { PassageAround, PlacedPassage } from "../song/placePassage";
import type { BenchAnswer, BenchQuestion } from "./benchPlaces";

/** A passage that is to be laid out. */
export interface PassageQuestion {
  copedent: Copedent;
  notes: readonly PassageNote[];
  around: PassageAround;
}

/** What the worker is asked. */
export type PlacesOrder =
  | { kind: "bench"; question: BenchQuestion }
  | { kind: "passage"; question: PassageQuestion };

/** What the worker says, one word for each order, in their order. */
export type PlacesWord =
  | { kind: "bench"; answer: BenchAnswer }
  | { kind: "passage"; answer: PlacedPassage }
  /** In words for people. */
  | { kind: "fault"; message: string };
