import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Seconds } from "@/lib/units/quantities";

/** Stretches in order of time, those that touch or overlap made one. */
export function joined(stretches: readonly HeardStretch[]): HeardStretch[] {
  const whole: HeardStretch[] = [];
  for (const { startSec, endSec } of [...stretches].sort((a, b) => a.startSec - b.startSec)) {
    const last = whole.at(-1);
    if (!last || startSec > last.endSec) whole.push({ startSec, endSec });
    else whole[whole.length - 1] = { ...last, endSec: Math.max(last.endSec, endSec) };
  }
  return whole;
}

/** What of a stretch none of the others takes, in order of time; pieces shorter than `shortestSec` are left out. */
export function leftBeside(
  stretch: HeardStretch,
  taken: readonly HeardStretch[],
  shortestSec: Seconds,
): HeardStretch[] {
  let left = [stretch];
  const isLeft = (each: HeardStretch) => each.endSec - each.startSec >= shortestSec;
  // At each step: pieces of nothing would double with every stretch that is taken.
  for (const { startSec, endSec } of taken)
    left = left.flatMap((each) =>
      [
        { startSec: each.startSec, endSec: Math.min(each.endSec, startSec) },
        { startSec: Math.max(each.startSec, endSec), endSec: each.endSec },
      ].filter(isLeft),
    );
  return left.filter(isLeft);
}

/** The part of a stretch that lies in another; shorter than nothing where they do not meet. */
export function clipped({ startSec, endSec }: HeardStretch, into: HeardStretch): HeardStretch {
  return { startSec: Math.max(startSec, into.startSec), endSec: Math.min(endSec, into.endSec) };
}
