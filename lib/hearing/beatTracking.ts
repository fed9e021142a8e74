import { parabolaOffset } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BEATS } from "./parameters";

/**
 * The chain of beats with the most onset strength under it whose period stays near `periodSec` and changes
 * slowly. Dynamic programming over beat time (D. Ellis, JNMR 36 (2007)) with the period as part of the state
 * and a cost on its change from beat to beat (the tempo transitions of F. Krebs, S. Boeck and G. Widmer, "An
 * efficient state-space model for joint tempo and meter tracking", ISMIR 2015).
 * @param onset onset strength, 0 up
 * @returns times in seconds, in order, over the whole record
 */
export function trackBeats(onset: Float64Array, frameRateHz: Hertz, periodSec: Seconds): Seconds[] {
  const centre = periodSec * frameRateHz;
  const shortest = Math.max(2, Math.floor(centre / BEATS.periodRange));
  const longest = Math.ceil(centre * BEATS.periodRange);
  const states = longest - shortest + 1;
  const count = onset.length;
  if (count <= longest) return [];
  const mean = onset.reduce((sum, value) => sum + value, 0) / count;
  const prior = Float64Array.from({ length: states }, (_, s) => {
    return BEATS.periodWeight * Math.log((shortest + s) / centre) ** 2;
  });
  const change = Float64Array.from({ length: states * states }, (_, at) => {
    const from = shortest + (at % states);
    const to = shortest + Math.floor(at / states);
    return BEATS.changeWeight * Math.log(to / from) ** 2 + prior[to - shortest]!;
  });
  const reach = Math.max(1, Math.ceil(centre * BEATS.changeReach));
  // Scores are asked for no farther back than the longest period, so only so many rows of them are kept.
  const rows = longest + 1;
  const best = new Float32Array(rows * states);
  // State of the beat before, counted from the lowest within reach; 0 where there was none.
  const cameFrom = new (2 * reach < 255 ? Uint8Array : Uint16Array)(count * states);
  for (let t = 0; t < count; t++) {
    const here = (t % rows) * states;
    const reward = BEATS.onsetWeight * (smoothed(onset, t) - mean);
    for (let s = 0; s < states; s++) {
      const before = t - (shortest + s);
      let top = before < 0 ? -prior[s]! : Number.NEGATIVE_INFINITY;
      let from = 0;
      if (before >= 0) {
        const row = (before % rows) * states;
        const high = Math.min(states - 1, s + reach);
        for (let q = Math.max(0, s - reach); q <= high; q++) {
          const value = best[row + q]! - change[s * states + q]!;
          if (value > top) {
            top = value;
            from = q - s + reach + 1;
          }
        }
      }
      best[here + s] = top + reward;
      cameFrom[t * states + s] = from;
    }
  }
  return readBack(best, cameFrom, { count, states, shortest, longest, reach }).map(
    (t) => (t + parabolaOffset(onset[t - 1] ?? 0, onset[t]!, onset[t + 1] ?? 0)) / frameRateHz,
  );
}

/** Onset strength with a little of its neighbours, so that a player's spread of a few milliseconds costs little. */
function smoothed(onset: Float64Array, t: number): number {
  const here = onset[t]!;
  return (here * 2 + (onset[t - 1] ?? 0) + (onset[t + 1] ?? 0)) / 4;
}

interface Trellis {
  count: number;
  states: number;
  shortest: number;
  longest: number;
  reach: number;
}

/** Follows the best chain back from the last period of the record. */
function readBack(
  best: Float32Array,
  cameFrom: Uint8Array | Uint16Array,
  { count, states, shortest, longest, reach }: Trellis,
): number[] {
  const rows = longest + 1;
  let t = 0;
  let s = 0;
  let top = Number.NEGATIVE_INFINITY;
  for (let u = Math.max(0, count - longest); u < count; u++) {
    for (let q = 0; q < states; q++) {
      // A chain may end only where no further beat of its period would fit.
      const score = best[(u % rows) * states + q]!;
      if (u + shortest + q < count || score <= top) continue;
      top = score;
      t = u;
      s = q;
    }
  }
  const frames: number[] = [];
  while (t >= 0) {
    frames.push(t);
    const from = cameFrom[t * states + s]!;
    if (from === 0) break;
    t -= shortest + s;
    s += from - reach - 1;
  }
  return frames.reverse();
}
