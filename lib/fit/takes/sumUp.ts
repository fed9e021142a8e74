import { MEDIAN_TO_DEVIATION, median } from "@/lib/dsp/running";
import type { Seconds } from "@/lib/units/quantities";
import type { PlayedBesides, StrokeJudged, TakeFlaw, TakeOverall } from "./TakeJudged";
import { CLEAN } from "./takeParameters";

/**
 * Sums up what was judged. How late all of it lies together is told apart from how far its strokes lie apart: a
 * device adds the one, and so does a player who lies behind the beat; only the other is a matter of playing together.
 * @param isSilent whether the take as a whole holds hardly any sound
 */
export function sumUp(
  strokes: readonly StrokeJudged[],
  besides: readonly PlayedBesides[],
  isSilent = false,
): TakeOverall {
  const count = (verdict: StrokeJudged["verdict"]) =>
    strokes.filter((stroke) => stroke.verdict === verdict).length;
  const late = strokes.flatMap(({ lateSec }) => lateSec ?? []);
  const medianLateSec = late.length > 0 ? rounded(median(late)) : null;
  const apart = late.map((sec) => Math.abs(apartSec(sec, medianLateSec)));
  const spreadSec = late.length > 1 ? rounded(MEDIAN_TO_DEVIATION * median(apart)) : null;
  const [otherCount, missedCount] = [count("other"), count("missed")];
  const has: Readonly<Record<TakeFlaw, boolean>> = {
    noStrokes: strokes.length === 0,
    silent: isSilent,
    missed: missedCount > 0,
    other: otherCount > 0,
    notArrived: strokes.some(({ glides }) => glides.some(({ hasArrived }) => !hasArrived)),
    besides: besides.length > 0,
    farOff: Math.abs(medianLateSec ?? 0) > CLEAN.medianSec,
    outOfTime: apart.some(isOutOfTime),
    scattered: (spreadSec ?? 0) > CLEAN.spreadSec,
  };
  const flaws = (Object.keys(has) as TakeFlaw[]).filter((flaw) => has[flaw]);
  return {
    strokeCount: strokes.length,
    foundCount: count("found"),
    otherCount,
    missedCount,
    medianLateSec,
    spreadSec,
    isClean: flaws.length === 0,
    flaws,
  };
}

/** How far a stroke lies from the rest of its take, below 0 before it; 0 where it isn't timed. */
export function apartSec(lateSec: Seconds | null, medianLateSec: Seconds | null): Seconds {
  return lateSec === null ? 0 : lateSec - (medianLateSec ?? 0);
}

/** Whether a stroke lies too far from the rest of its take. */
export function isOutOfTime(apartSec: Seconds): boolean {
  return Math.abs(apartSec) > CLEAN.apartSec;
}

/** To a tenth of a millisecond: nothing is heard finer. */
export function rounded(sec: number): number {
  return Math.round(sec * 1e4) / 1e4;
}
