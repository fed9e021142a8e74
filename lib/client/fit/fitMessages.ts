import type { FitAnswer } from "@/lib/fit/FitAnswer";
import type { Guess } from "@/lib/fit/Guess";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents } from "@/lib/units/quantities";
import type { RecordStretch } from "../record/RecordStretch";

/** A guess about a passage; its times, glides too, are seconds of the record. */
export interface AskedFit {
  passage: HeardStretch;
  guess: Guess;
}

/** What the worker is asked. */
export type FitOrder =
  /** Have ready what passages of a record in this tuning are looked at with. */
  | { kind: "warm"; tuningCents: Cents }
  /** Hold guesses against a stretch of the record; tuning null where it is not known: it is then heard in the stretch. */
  | { kind: "fit"; id: number; stretch: RecordStretch; tuningCents: Cents | null; asked: AskedFit[] };

/** What the worker says. */
export type FitWord =
  | { kind: "answer"; id: number; at: number; answer: FitAnswer }
  /** One of the guesses cannot be held against the record; in words for people. */
  | { kind: "refused"; id: number; at: number; message: string }
  /** All that was asked by one order is told. */
  | { kind: "done"; id: number }
  | { kind: "fault"; id: number; message: string };
