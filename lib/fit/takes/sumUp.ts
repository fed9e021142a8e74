import { median } from "@/lib/dsp/running";
import type { PlayedBesides, StrokeJudged, TakeFlaw, TakeOverall } from "./TakeJudged";
import { CLEAN } from "./takeParameters";

/** Makes a standard deviation of a median of distances, for normally spread ones (F. R. Hampel, JASA 69 (1974)). */
const MEDIAN_TO_DEVIATION = 1.4826;

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
  const apart = late.map((sec) => Math.abs(sec - (medianLateSec ?? 0)));
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
    outOfTime: apart.some((sec) => sec > CLEAN.apartSec),
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

/** To a tenth of a millisecond: nothing is heard finer. */
export function rounded(sec: number): number {
  return Math.round(sec * 1e4) / 1e4;
}
