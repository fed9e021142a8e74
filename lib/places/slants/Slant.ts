/**
 * How a bar lies slanted. Forward: its nose, over the further strings, is nearer the bridge, so that an interval grows
 * (minor third to major third, minor sixth to major sixth). Reverse: its nose is nearer the nut, so that it shrinks.
 * Split: the nose lies between two neighbouring strings, which it stops at one fret, and the bar slants forward to a third
 * string nearer the player. Source: horseshoemagnets.net number-system/slant-theory (R. Aiello).
 */
export type SlantFamily = "forward" | "reverse" | "split";

export interface Slant {
  family: SlantFamily;
  /** Frets from its lowest string to its highest: 1 or 2. */
  span: number;
}

/** A string under the bar. */
export interface UnderBar {
  /** Its place among the strings of the instrument, counted from the furthest away. */
  index: number;
  fret: number;
}

/** As far as a bar is slanted; with more its line would run along the strings (local proposal). */
export const WIDEST_SPAN = 2;
/** Strings that a slanted bar stops at once. */
export const MOST_STRINGS = 3;
/** How far the bar may lie from a string's fret, in frets, as tuned by ear. */
const TRUE_WITHIN = 0.05;

/**
 * The slant that stops two or three strings at these frets.
 * @returns null where no slanted bar does: they lie straight, too far apart, one is open, or in no line
 */
export function slantOf(stopped: readonly UnderBar[]): Slant | null {
  if (stopped.length < 2 || stopped.length > MOST_STRINGS) return null;
  const fromTop = [...stopped].sort((a, b) => a.index - b.index);
  const frets = fromTop.map(({ fret }) => fret);
  const span = Math.max(...frets) - Math.min(...frets);
  if (span === 0 || span > WIDEST_SPAN || Math.min(...frets) < 1) return null;
  const [top, last] = [fromTop[0]!, fromTop.at(-1)!];
  const middle = fromTop.length === 3 ? fromTop[1]! : null;
  if (middle !== null && middle.index === top.index + 1 && middle.fret === top.fret && last.fret < top.fret)
    return { family: "split", span };
  if (middle !== null) {
    const slope = (last.fret - top.fret) / (last.index - top.index);
    if (Math.abs(top.fret + slope * (middle.index - top.index) - middle.fret) > TRUE_WITHIN) return null;
  }
  return { family: top.fret > last.fret ? "forward" : "reverse", span };
}
