import type { Copedent } from "@/lib/instrument/Copedent";
import type { CarriedOver, PartToMove } from "../song/carryOver";
import type { GripsQuestion, GripWay } from "../song/otherGrips";
import type { PlacesInstead } from "../song/partOnGuitar";
import type { PassageNote } from "../song/passageMoments";
import type { PassageAround, PlacedPassage } from "../song/placePassage";
import type { BenchAnswer, BenchQuestion } from "./BenchQuestion";

/** A passage that is to be laid out. */
export interface PassageQuestion {
  copedent: Copedent;
  notes: readonly PassageNote[];
  around: PassageAround;
}

/** What the worker is asked. */
export type PlacesOrder =
  | { kind: "bench"; question: BenchQuestion }
  | { kind: "passage"; question: PassageQuestion }
  /** Places for what cannot be played by effect on the guitar that a part goes to. */
  | { kind: "anew"; question: PartToMove }
  /** The whole part on that guitar. */
  | { kind: "carry"; question: PartToMove }
  /** Other places for events of a part. */
  | { kind: "grips"; question: GripsQuestion };

/** What the worker is told. */
export type PlacesMessage =
  | PlacesOrder
  /** To lay out parts of its own on a guitar while nothing is asked; it is not answered. */
  | { kind: "warm"; copedent: Copedent };

/** Its answers, one for each order, in their order. */
export type PlacesAnswer =
  | { kind: "bench"; answer: BenchAnswer }
  | { kind: "passage"; answer: PlacedPassage }
  | { kind: "anew"; answer: PlacesInstead }
  | { kind: "carry"; answer: CarriedOver }
  | { kind: "grips"; answer: GripWay[] }
  /** In words for people. */
  | { kind: "fault"; message: string };

/** What the worker says: answers, and how far the order is that it answers next, 0 to 1. */
export type PlacesWord = PlacesAnswer | { kind: "progress"; fraction: number };
