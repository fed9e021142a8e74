import type { Seconds } from "@/lib/units/quantities";
import { type CountedTap, median } from "./countTaps";

/** How many beats either way weigh in where a beat is placed. */
const REACH_BEATS = 5;
/** Rounds in which taps far from the curve are weighed less; more change nothing that one could hear. */
const ROUNDS = 3;
/** Taps beyond so many median distances weigh nothing (Cleveland 1979). */
const LOST_AT = 6;

/**
 * Beats that follow taps where the tempo breathes: a straight line fitted about each beat, near taps weighing more, slips
 * hardly (locally weighted regression with bisquare weights, Cleveland 1979, J. Am. Stat. Assoc. 74).
 * @param taps counted, of two different beats at least
 * @returns time of each beat from that of the first tap to that of the last; where slips are many, not always ascending
 */
export function followedBeats(taps: readonly CountedTap[]): Seconds[] {
  const last = Math.max(0, ...taps.map(({ beat }) => beat));
  let trust = taps.map(() => 1);
  for (let round = 0; round < ROUNDS; round += 1) {
    const offs = taps.map((tap) => Math.abs(tap.timeSec - placeAt(tap.beat, taps, trust)));
    const scale = LOST_AT * (median(offs) ?? 0);
    if (scale < 1e-9) break;
    trust = offs.map((off) => (off < scale ? (1 - (off / scale) ** 2) ** 2 : 0));
  }
  const beats: Seconds[] = [];
  for (let beat = 0; beat <= last; beat += 1) beats.push(placeAt(beat, taps, trust));
  return beats;
}

/** Where the line about a beat puts it; from as far as need be where taps were left out. */
function placeAt(beat: number, taps: readonly CountedTap[], trust: readonly number[]): Seconds {
  for (let reach = REACH_BEATS; ; reach *= 2) {
    let weight = 0;
    let beats = 0;
    let sec = 0;
    const near = taps.flatMap((tap, index) => {
      const away = Math.abs(tap.beat - beat) / reach;
      const weighs = away < 1 ? (trust[index] ?? 0) * (1 - away ** 3) ** 3 : 0;
      weight += weighs;
      beats += weighs * tap.beat;
      sec += weighs * tap.timeSec;
      return weighs > 0 ? [{ ...tap, weighs }] : [];
    });
    const isWhole = reach > 2 * Math.max(1, ...taps.map((tap) => tap.beat));
    if (weight > 0) {
      const middleBeat = beats / weight;
      const middleSec = sec / weight;
      const squares = near.reduce((sum, tap) => sum + tap.weighs * (tap.beat - middleBeat) ** 2, 0);
      const slope =
        near.reduce((sum, tap) => sum + tap.weighs * (tap.beat - middleBeat) * (tap.timeSec - middleSec), 0) /
        squares;
      if (squares > 1e-9 && slope > 0) return middleSec + slope * (beat - middleBeat);
    }
    if (isWhole) return weight > 0 ? sec / weight : (taps[0]?.timeSec ?? 0);
  }
}
