import { countClean } from "@/lib/document/commands/practice";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { sumUp } from "@/lib/fit/takes/sumUp";
import type { TakeJudged, TakeOverall } from "@/lib/fit/takes/TakeJudged";
import { beginsWithin } from "@/lib/fit/takes/TakeStroke";
import type { Seconds } from "@/lib/units/quantities";
import { FULL_SPEED } from "../practice/fullSpeed";
import { deviceId } from "../practice/keptHere";
import type { SongActs } from "../song/SongActs";

/**
 * How a take went within a stretch of the record; null where it does not cover the strokes that the part has there, from the
 * first to the last, or where there are none.
 * @param strokes all of the part's within the stretch
 */
export function takeWithin(
  judged: TakeJudged,
  stretch: { startSec: Seconds; endSec: Seconds },
  strokes: readonly { eventId: string }[],
): TakeOverall | null {
  const ids = new Set(strokes.map(({ eventId }) => eventId));
  const own = judged.strokes.filter(({ eventId }) => ids.has(eventId));
  if (ids.size === 0 || own.length < ids.size) return null;
  const besides = judged.besides.filter(({ atSec }) => beginsWithin(atSec, stretch));
  return sumUp(own, besides);
}

/** The passages that a take is clean for (rule D64), each by its id. @param strokesOf all strokes of the part within a stretch */
export function cleanFor(
  judged: TakeJudged,
  studies: readonly Pick<ShownStudy, "id" | "startSec" | "endSec">[],
  strokesOf: (study: { startSec: Seconds; endSec: Seconds }) => readonly { eventId: string }[],
): string[] {
  return studies.filter((study) => takeWithin(judged, study, strokesOf(study))?.isClean).map(({ id }) => id);
}

/**
 * Counts a take, once, for every passage that it is clean for. To be called where a take was just recorded and judged,
 * never for one that is judged anew.
 * @returns the ids of those passages; none where the reader may not write
 */
export function countTake(
  acts: Pick<SongActs, "keep" | "mayWrite">,
  judged: TakeJudged,
  studies: Parameters<typeof cleanFor>[1],
  strokesOf: Parameters<typeof cleanFor>[2],
): string[] {
  if (!acts.mayWrite) return [];
  const fullSpeedTimes = Number(judged.speed >= FULL_SPEED);
  const ids = cleanFor(judged, studies, strokesOf);
  for (const id of ids) acts.keep((ctx) => countClean(ctx, id, deviceId(), { times: 1, fullSpeedTimes }));
  return ids;
}
