import { beatToSeconds, secondsToBeat } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import { barAt, type SongGrid } from "./songGrid";

const QUARTERS = ["", "¼", "½", "¾"];

/** Bar and beat as figures, to the nearest quarter of a beat: `12.3`, `12.3½`; the upbeat is bar 0. Empty before the beats. */
export function barBeatText(grid: SongGrid, timeSec: Seconds): string {
  const quarters = Math.round(secondsToBeat(grid, timeSec) * 4);
  const beat = Math.floor(quarters / 4);
  const bar = barAt(grid, beatToSeconds(grid, beat));
  if (!bar) return "";
  return `${Math.max(0, bar.number)}.${beat - bar.startBeat + bar.firstInBar}${QUARTERS[quarters - beat * 4]}`;
}
