import type { Beats, Seconds } from "@/lib/units/quantities";
import { type CountedTap, countTaps, median } from "./countTaps";
import { followedBeats } from "./followedBeats";
import { MAD_TO_DEVIATION, steadyTempo } from "./steadyTempo";
import type { Tap } from "./Tap";

/** The beats that taps stand for. */
export interface FittedTaps {
  /** Ascending, from the first tap to the last; on an even grid where they are steady. */
  beatsSec: Seconds[];
  isSteady: boolean;
  /** Median length of a beat. */
  periodSec: Seconds;
  /** How evenly it was tapped: standard deviation of the taps about the beats. */
  spreadSec: Seconds;
  /** Beats, counted from the first, that were tapped as the first of a bar; ascending. */
  downbeats: Beats[];
}

/** Fewer taps tell too little of a tempo. */
export const FEWEST_TAPS = 4;
/**
 * People who tap along with a steady beat spread by 2 to 5 % of it (Repp 2005, Psychonomic Bulletin & Review 12, from
 * memory); what spreads more is another tempo.
 */
const STEADY_SPREAD = 0.06;
/** Less spread than that may still be a tempo that breathes, where one tap's distance is much like the last one's. */
const BREATHING = { spread: 0.02, drift: 0.6, taps: 12 } as const;
/** Beats stay at least this far apart, whatever was tapped. */
const CLOSEST_SEC: Seconds = 0.1;

/**
 * Fits taps to a steady grid, or follows them where the tempo breathes.
 * @param taps in the order in which they were tapped; a loop's rounds count together
 * @returns null of fewer than four beats, or where no pace can be made out
 */
export function fitTaps(taps: readonly Tap[]): FittedTaps | null {
  const counted = countTaps(taps);
  const steady = steadyTempo(counted);
  if (!steady || new Set(counted.map(({ beat }) => beat)).size < FEWEST_TAPS) return null;
  const spread = steady.spreadSec / steady.periodSec;
  const isBreathing =
    counted.length >= BREATHING.taps && spread > BREATHING.spread && steady.drift > BREATHING.drift;
  const downbeats = downbeatsOf(counted);
  const last = Math.max(...counted.map(({ beat }) => beat));
  if (spread <= STEADY_SPREAD && !isBreathing) {
    const { startSec, periodSec, spreadSec } = steady;
    const beatsSec = Array.from({ length: last + 1 }, (_, beat) => startSec + beat * periodSec);
    return { ...onRecord(beatsSec, downbeats), isSteady: true, periodSec, spreadSec };
  }
  const beatsSec = ascending(followedBeats(counted));
  const offs = counted.map(({ beat, timeSec }) => Math.abs(timeSec - (beatsSec[beat] ?? timeSec)));
  return {
    ...onRecord(beatsSec, downbeats),
    isSteady: false,
    periodSec: median(beatsSec.slice(1).map((sec, index) => sec - (beatsSec[index] ?? sec))) ?? 0,
    spreadSec: MAD_TO_DEVIATION * (median(offs) ?? 0),
  };
}

function downbeatsOf(counted: readonly CountedTap[]): Beats[] {
  const beats = counted.filter(({ isDownbeat }) => isDownbeat).map(({ beat }) => beat);
  return [...new Set(beats)].sort((a, b) => a - b);
}

/** Without beats that would lie before the record begins; one that does so by a hand's spread begins with it. */
function onRecord(beatsSec: readonly Seconds[], downbeats: readonly Beats[]) {
  const gone = beatsSec.filter((sec) => sec <= -CLOSEST_SEC).length;
  return {
    beatsSec: beatsSec.slice(gone).map((sec) => Math.max(0, sec)),
    downbeats: downbeats.map((beat) => beat - gone).filter((beat) => beat >= 0),
  };
}

function ascending(beatsSec: readonly Seconds[]): Seconds[] {
  let before = Number.NEGATIVE_INFINITY;
  return beatsSec.map((sec) => {
    before = Math.max(sec, before + CLOSEST_SEC);
    return before;
  });
}
