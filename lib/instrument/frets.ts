import type { Stopped } from "./effectivePitch";

/** Where strings are held, without the pedals. */
export type HeldFrets = Pick<Stopped, "fret" | "frets" | "strings">;

/** The fret at which one of the strings is held, 0 = open; the fret of the bar for a string that is not among them. */
export function fretOn({ fret, frets, strings }: HeldFrets, string: number): number {
  return frets?.[strings.indexOf(string)] ?? fret;
}

/** The frets of all strings, in their order. */
export function fretsOf({ fret, frets, strings }: HeldFrets): number[] {
  return strings.map((_, at) => frets?.[at] ?? fret);
}

/**
 * The one way to write down which frets strings are held at, so that equal places are equal data: `frets` is null
 * where all are alike, and `fret` is then that one; else `fret` is the lowest that is not open.
 * @param frets one a string, at least one
 */
export function settleFrets(frets: readonly number[]): { fret: number; frets: number[] | null } {
  const [first = 0] = frets;
  if (frets.every((fret) => fret === first)) return { fret: first, frets: null };
  return { fret: Math.min(...frets.filter((fret) => fret > 0)), frets: [...frets] };
}

/**
 * The fret at which a straight bar lies over any string, where it is known to lie over those: along the line through the
 * outer two of them, slanted or not. Open strings under it are passed over.
 */
export function barFretAt(held: HeldFrets, string: number): number {
  const [top, ...others] = held.strings
    .map((each) => ({ string: each, fret: fretOn(held, each) }))
    .filter(({ fret }) => fret > 0)
    .sort((a, b) => a.string - b.string);
  const bottom = others.at(-1);
  if (top === undefined || bottom === undefined) return top?.fret ?? held.fret;
  const slope = (bottom.fret - top.fret) / (bottom.string - top.string);
  return top.fret + slope * (string - top.string);
}
