import type { BeatGrid } from "@/lib/notation/barGrid";
import { type LaidRun, layRun } from "@/lib/notation/runs/layRun";
import { parseRun, RunError } from "@/lib/notation/runs/parseRun";
import type { Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import { typedChord } from "./typedChord";

/** A typed run as changes of the song. */
export interface TypedRun extends Omit<LaidRun, "shares"> {
  changes: { startSec: Seconds; endSec: Seconds; label: string }[];
}

/** Whether what is typed for one change is more than one. */
export function isRun(text: string): boolean {
  return /\S\s|^\s*[([|]/.test(text);
}

/**
 * The changes of what was typed in a run, on the bars from a time on. Numbers count from the home that is in force where each
 * falls; neighbours that are one chord are one change.
 * @throws RunError, TypedChordError, UnseenHomeError in words for people
 */
export function typedRun(
  text: string,
  {
    grid,
    fromSec,
    durationSec,
    keyAt,
  }: {
    grid: BeatGrid | null;
    fromSec: Seconds;
    durationSec: Seconds;
    keyAt: (timeSec: Seconds) => Key | null;
  },
): TypedRun {
  if (!grid)
    throw new RunError("The beats are not known, so a run has no bars to fall on. Tap them first (T).");
  const bars = parseRun(text);
  if (bars.length === 0) throw new RunError("Type changes one after the other, as in 1 4 1/3 5.");
  const { shares, ...where } = layRun(bars, grid, fromSec, durationSec);
  const changes: TypedRun["changes"] = [];
  for (const { text: chord, startSec, endSec } of shares) {
    const label = typedChord(chord, keyAt(startSec));
    const last = changes.at(-1);
    if (last && last.label === label && startSec - last.endSec < 0.02) last.endSec = endSec;
    else changes.push({ startSec, endSec, label });
  }
  if (changes.length === 0) throw new RunError("Nothing in this would be written: type a number or letters.");
  return { changes, ...where };
}
