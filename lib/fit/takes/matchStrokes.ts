import type { Seconds } from "@/lib/units/quantities";
import { MATCHING } from "./takeParameters";

/** What matching knows of strokes and picks, in seconds of the take. */
export interface Matchable {
  /** When each stroke is wanted, rising. */
  wantedSec: readonly Seconds[];
  /** When each pick comes, rising. */
  pickedSec: readonly Seconds[];
  /** Strength of each pick as a share of what is usual in the take, 0 up. */
  loudness: readonly number[];
  /** Log odds that a stroke's notes sound from a pick on; asked for those alone that lie near each other. */
  sounds(stroke: number, pick: number): number;
}

/**
 * Which pick is which stroke: the cheapest way through both in their order, with strokes left out and picks besides (S. B.
 * Needleman and C. D. Wunsch, J. Mol. Biol. 48 (1970); so R. B. Dannenberg matches what is played with a score, "An on-line
 * algorithm for real-time accompaniment", ICMC 1984). How late the take is as a whole is found first, as the
 * lateness at which most of what sounds right lies together.
 * @returns for each stroke the place of its pick, or null
 */
export function matchStrokes(all: Matchable): (number | null)[] {
  return cheapestWay(all, wholeLateness(all));
}

/** The lateness, seconds of the take, about which picks that sound right lie closest. */
function wholeLateness({ wantedSec, pickedSec, sounds }: Matchable): Seconds {
  const widthSec = MATCHING.apartSec / 2;
  const reachSec = MATCHING.farthestSec + 3 * widthSec;
  const near = wantedSec.map((wanted, stroke) =>
    pickedSec.flatMap((picked, pick) =>
      Math.abs(picked - wanted) <= reachSec
        ? [{ lateSec: picked - wanted, weight: 1 / (1 + Math.exp(-sounds(stroke, pick))) }]
        : [],
    ),
  );
  let best = { lateSec: 0, score: 0 };
  const steps = Math.round(MATCHING.farthestSec / (widthSec / 2));
  for (let step = -steps; step <= steps; step++) {
    const lateSec = (step * widthSec) / 2;
    let score = 0;
    for (const candidates of near) {
      const scores = candidates.map(
        (each) => each.weight * Math.exp(-(((each.lateSec - lateSec) / widthSec) ** 2) / 2),
      );
      score += Math.max(0, ...scores);
    }
    // Of lateness that explains as much the least is taken.
    score *= 1 - 0.1 * (Math.abs(lateSec) / MATCHING.farthestSec);
    if (score > best.score) best = { lateSec, score };
  }
  return best.lateSec;
}

function cheapestWay(all: Matchable, lateSec: Seconds): (number | null)[] {
  const { wantedSec, pickedSec, loudness } = all;
  const [rows, columns] = [wantedSec.length, pickedSec.length];
  const width = columns + 1;
  const cost = new Float64Array((rows + 1) * width);
  /** 0 for a match, 1 for a stroke alone, 2 for a pick alone. */
  const step = new Uint8Array((rows + 1) * width);
  const alone = loudness.map((share) => MATCHING.pickAlone * Math.min(1, share));
  for (let row = 0; row <= rows; row++) {
    for (let column = 0; column <= columns; column++) {
      if (row === 0 && column === 0) continue;
      const at = row * width + column;
      const matched =
        row > 0 && column > 0 ? cost[at - width - 1]! + pairCost(row - 1, column - 1) : Infinity;
      const stroke = row > 0 ? cost[at - width]! + MATCHING.strokeAlone : Infinity;
      const pick = column > 0 ? cost[at - 1]! + alone[column - 1]! : Infinity;
      cost[at] = Math.min(matched, stroke, pick);
      step[at] = cost[at] === matched ? 0 : cost[at] === stroke ? 1 : 2;
    }
  }
  const found = new Array<number | null>(rows).fill(null);
  for (let row = rows, column = columns; row > 0 || column > 0; ) {
    const taken = step[row * width + column]!;
    if (taken === 0) found[row - 1] = column - 1;
    if (taken !== 2) row -= 1;
    if (taken !== 1) column -= 1;
  }
  return found;

  function pairCost(stroke: number, pick: number): number {
    const apart = Math.abs(pickedSec[pick]! - wantedSec[stroke]! - lateSec);
    if (apart > MATCHING.reachSec) return Number.POSITIVE_INFINITY;
    const nats = Math.max(-MATCHING.surestNats, Math.min(MATCHING.surestNats, all.sounds(stroke, pick)));
    const faint = Math.max(0, 1 - loudness[pick]! / MATCHING.faintUnder);
    return (
      apart / MATCHING.apartSec +
      Math.log1p(Math.exp(-nats)) +
      (MATCHING.strokeAlone + MATCHING.pickAlone) * faint
    );
  }
}
