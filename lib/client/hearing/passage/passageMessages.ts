import type { HeardNote, HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents } from "@/lib/units/quantities";
import type { RecordStretch } from "../../record/RecordStretch";

/** What the worker is asked. */
export type PassageOrder =
  /** Have the ear ready. */
  | { kind: "warm" }
  | { kind: "hear"; stretch: RecordStretch; passage: HeardStretch; tuningCents: Cents | null };

/** What was heard of a passage. */
export interface PassageNotes {
  /** Name and number of the method. */
  version: string;
  /** Those that begin in it, the band's too. */
  notes: HeardNote[];
}

/** What the worker says; `warm`, `heard` or `fault` is its last word on an order. */
export type PassageWord =
  | { kind: "warm" }
  /** 0 to 1. */
  | { kind: "progress"; fraction: number }
  | ({ kind: "heard" } & PassageNotes)
  /** In words for people. */
  | { kind: "fault"; message: string };
