import type { HeardStretch } from "@/lib/hearing/Hearing";

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
