import type { TakeSound } from "@/lib/fit/takes/judgeTake";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { TakeStroke } from "@/lib/fit/takes/TakeStroke";
import type { Cents } from "@/lib/units/quantities";

/** What the worker that judges a take is asked, once. */
export interface JudgeOrder {
  take: TakeSound;
  strokes: readonly TakeStroke[];
  /** How far the take stands from A4 = 440 Hz where it agrees with the record as that was heard. */
  tuningCents: Cents;
}

/** What it says. */
export type JudgeWord =
  | { kind: "progress"; fraction: number }
  | { kind: "judged"; judged: TakeJudged }
  /** Why it could not be judged, as the error says it. */
  | { kind: "fault"; why: string };
