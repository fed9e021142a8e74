import type { GlideKind } from "./HeardNote";

/** A string about the time of a glide: where it moves to, or that it is held. */
export interface StringMove {
  /** Semitones, up or down; 0 for a string that is held. */
  interval: number;
}

/** Pedals and levers pull a string by a whole tone at the most, now and then by a minor third (common practice, no source). */
const FARTHEST_PEDAL = 3.5;
/** Intervals that differ by less are alike: the bar is not always straight, and strings are tempered. */
const ALIKE = 0.5;

/**
 * What moved the strings: one voice that moves against a held one, or voices that move by different intervals, take a
 * pedal or lever; voices that all move alike take the bar, which lies over all of them. One string alone cannot
 * tell, unless it goes farther than a pedal pulls.
 * @param moves the steel's strings that sound about the glide, at least one of them moving
 */
export function mechanismOf(moves: readonly StringMove[]): GlideKind {
  const moving = moves.filter(({ interval }) => interval !== 0);
  const [first] = moving;
  if (!first) return "unsure";
  const farthest = Math.max(...moving.map(({ interval }) => Math.abs(interval)));
  if (moves.length === 1) return farthest > FARTHEST_PEDAL ? "bar" : "unsure";
  const alike = moving.every(({ interval }) => Math.abs(interval - first.interval) < ALIKE);
  if (alike && moving.length === moves.length) return "bar";
  return farthest > FARTHEST_PEDAL ? "unsure" : "pedal";
}
