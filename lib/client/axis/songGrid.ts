import { type Bar, type BeatGrid, beatToSeconds, gridBars, secondsToBeat } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import { firstThat } from "./firstThat";

/** The beat grid of a song with its bars, ready to be looked up. */
export interface SongGrid extends BeatGrid {
  /** From the first beat to the end of the record, in order. */
  bars: readonly Bar[];
  /** Median beat rate, in beats a minute; 0 where there are fewer than two beats. */
  tempoBpm: number;
}

/** @returns null where there are no beats */
export function makeSongGrid(grid: BeatGrid | null, durationSec: Seconds): SongGrid | null {
  if (!grid || grid.beatsSec.length === 0) return null;
  const { beatsSec, inBar, beatsPerBar } = grid;
  const gaps = beatsSec.slice(1).map((sec, index) => sec - beatsSec[index]!);
  gaps.sort((a, b) => a - b);
  const medianSec = gaps[Math.floor(gaps.length / 2)];
  const lastSec = beatsSec.at(-1)!;
  return {
    beatsSec,
    inBar,
    beatsPerBar,
    bars: gridBars(grid, undefined, durationSec > lastSec ? durationSec : undefined),
    tempoBpm: medianSec ? 60 / medianSec : 0,
  };
}

/** Every so many bars are named or drawn where each of them has room: a power of two. */
export function everySoManyBars(
  { tempoBpm, beatsPerBar }: Pick<SongGrid, "tempoBpm" | "beatsPerBar">,
  pxPerSec: number,
  roomPx: number,
): number {
  const barPx = tempoBpm > 0 ? (60 / tempoBpm) * beatsPerBar * pxPerSec : roomPx;
  return 2 ** Math.max(0, Math.ceil(Math.log2(roomPx / barPx)));
}

/** Times nearer to a beat than this stand on it. */
const ON_BEAT = 0.02;
/** In words, a time this near to a beat is that beat: nobody plays it closer. */
const NEAR_BEAT = 0.06;

/** The nearest place on a grid of `1/parts` of a beat; never before the record begins. */
export function snapToBeat(grid: BeatGrid, timeSec: Seconds, parts = 1): Seconds {
  return Math.max(0, beatToSeconds(grid, Math.round(secondsToBeat(grid, timeSec) * parts) / parts));
}

/** The next place on a grid of `1/parts` of a beat, before (-1) or after (+1) a time. */
export function stepBeat(grid: BeatGrid, timeSec: Seconds, direction: -1 | 1, parts = 1): Seconds {
  const at = secondsToBeat(grid, timeSec) * parts;
  const near = Math.round(at);
  const isOn = Math.abs(at - near) < ON_BEAT;
  const next = isOn ? near + direction : direction > 0 ? Math.ceil(at) : Math.floor(at);
  return Math.max(0, beatToSeconds(grid, next / parts));
}

/** The bar in which a time lies; null before the first beat. */
export function barAt(grid: SongGrid, timeSec: Seconds): Bar | null {
  const { bars } = grid;
  return bars[firstThat(bars.length, (at) => bars[at]!.startSec > timeSec + 1e-6) - 1] ?? null;
}

/** The bar that one means by a time: where it lies, or the next where more than half of it has gone by, or it is a pickup. */
export function barFor(grid: SongGrid, timeSec: Seconds): Bar | null {
  const bar = barAt(grid, timeSec + 0.05);
  if (!bar) return grid.bars[0] ?? null;
  const gone = secondsToBeat(grid, timeSec) - bar.startBeat;
  const isPast = bar.number < 1 || gone > (bar.endBeat - bar.startBeat) / 2;
  return isPast ? (grid.bars.find((each) => each.startBeat === bar.endBeat) ?? bar) : bar;
}

/** Bar and beat in words, `bar 3 beat 1`; empty where no grid is known. */
export function placeWords(grid: SongGrid | null, timeSec: Seconds): string {
  if (!grid) return "";
  const at = secondsToBeat(grid, timeSec);
  const isOn = Math.abs(at - Math.round(at)) < NEAR_BEAT;
  const bar = barAt(grid, isOn ? beatToSeconds(grid, Math.round(at)) : timeSec);
  if (!bar) return "before the first beat";
  const beat = (isOn ? Math.round(at) : Math.floor(at)) - bar.startBeat + bar.firstInBar;
  return bar.number < 1 ? `upbeat, beat ${beat}` : `bar ${bar.number} beat ${beat}`;
}
