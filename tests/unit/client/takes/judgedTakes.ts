import { sumUp } from "@/lib/fit/takes/sumUp";
import {
  type PlayedBesides,
  type StrokeJudged,
  TAKE_JUDGED_VERSION,
  type TakeJudged,
} from "@/lib/fit/takes/TakeJudged";

/** A stroke that was found in time, or as told otherwise. */
export function judgedStroke(
  eventId: string,
  startSec: number,
  more: Partial<StrokeJudged> = {},
): StrokeJudged {
  return {
    ...{ eventId, startSec, notesMidi: [67], verdict: "found", heardMidi: null, fit: 0.98 },
    ...{ lateSec: 0.004, glides: [] },
    ...more,
  };
}

/** A take over the first ten seconds of a record. */
export function judgedTake(
  strokes: StrokeJudged[],
  besides: PlayedBesides[] = [],
  more: Partial<TakeJudged> = {},
): TakeJudged {
  return {
    ...{ version: TAKE_JUDGED_VERSION, startSec: 0, endSec: 10, speed: 1 },
    ...sumUp(strokes, besides),
    ...{ strokes, besides },
    ...more,
  };
}
