import type { Beats, Seconds } from "@/lib/units/quantities";
import type { Tap } from "./Tap";

/** A tap with the beat that it stands for, counted from the first tap, which is 0. */
export interface CountedTap extends Tap {
  beat: Beats;
}

/** Taps closer together than this share of the beat at hand are one that bounced. */
const BOUNCE_SHARE = 0.4;
/** How many of the last distances say how long a beat is by now. */
const PACE_OVER = 5;
/** Faster than 300 a minute or slower than 20 nobody taps beats. */
const PACE_SEC = { least: 0.2, most: 3 } as const;

/**
 * Counts beats through taps: one that was left out still counts, one that bounced does not. Taps go back in time where a loop
 * begins again; what is tapped in another round is laid over what is counted already.
 * @param taps in the order in which they were tapped
 * @returns in order of time; none where no pace can be made out
 */
export function countTaps(taps: readonly Tap[]): CountedTap[] {
  const rounds = inRounds(taps);
  const distances = rounds.flatMap((round) => distancesOf(round)).filter(isPace);
  const paceSec = median(distances);
  if (paceSec === null) return [];
  const counted: CountedTap[] = [];
  for (const round of rounds) {
    const own = countRound(round, paceSec);
    const by = counted.length === 0 ? 0 : beatsBetween(counted, own, paceSec);
    counted.push(...own.map((tap) => ({ ...tap, beat: tap.beat + by })));
    counted.sort((a, b) => a.timeSec - b.timeSec);
  }
  const first = Math.min(...counted.map(({ beat }) => beat));
  return counted.map((tap) => ({ ...tap, beat: tap.beat - first }));
}

/** One run through the record after the other. */
function inRounds(taps: readonly Tap[]): Tap[][] {
  const rounds: Tap[][] = [];
  for (const tap of taps) {
    const last = rounds.at(-1);
    if (last && tap.timeSec > (last.at(-1)?.timeSec ?? 0)) last.push(tap);
    else rounds.push([tap]);
  }
  return rounds;
}

/** The pace is followed as it goes, so that a long run may grow faster without losing count. */
function countRound(round: readonly Tap[], paceSec: Seconds): CountedTap[] {
  const counted: CountedTap[] = [];
  const recent: Seconds[] = [];
  for (const tap of round) {
    const last = counted.at(-1);
    if (!last) {
      counted.push({ ...tap, beat: 0 });
      continue;
    }
    const nowSec = median(recent) ?? paceSec;
    const distanceSec = tap.timeSec - last.timeSec;
    if (distanceSec < BOUNCE_SHARE * nowSec) {
      last.isDownbeat ||= tap.isDownbeat;
      continue;
    }
    const beats = Math.max(1, Math.round(distanceSec / nowSec));
    counted.push({ ...tap, beat: last.beat + beats });
    recent.push(distanceSec / beats);
    if (recent.length > PACE_OVER) recent.shift();
  }
  return counted;
}

/** How many beats another round begins after the first beat of what is counted. */
function beatsBetween(known: readonly CountedTap[], round: readonly CountedTap[], paceSec: Seconds): Beats {
  const offsets = round.map((tap) => {
    const near = known.reduce((best, each) =>
      Math.abs(each.timeSec - tap.timeSec) < Math.abs(best.timeSec - tap.timeSec) ? each : best,
    );
    return near.beat + Math.round((tap.timeSec - near.timeSec) / paceSec) - tap.beat;
  });
  return median(offsets) ?? 0;
}

function distancesOf(round: readonly Tap[]): Seconds[] {
  return round.slice(1).map((tap, index) => tap.timeSec - (round[index]?.timeSec ?? tap.timeSec));
}

function isPace(sec: Seconds): boolean {
  return sec >= PACE_SEC.least && sec <= PACE_SEC.most;
}

/** The upper of two middle ones, which is one of the list; null of an empty list. */
export function median(list: readonly number[]): number | null {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? null;
}
