import type { PitchClass } from "@/lib/units/quantities";
import type { BarLikeness } from "./barLikeness";
import { FORM } from "./parameters";

/** A run of bars that is like earlier bars, at one distance and pitch all along. */
export interface AlikeRun {
  from: number;
  to: number;
  /** Bars back to what it is like. */
  lag: number;
  semitones: PitchClass;
  /** Bars that telling it as a repeat would save. */
  gain: number;
}

/**
 * For each distance and transposition the run of bars most alike (J. Bentley, "Programming pearls: algorithm design
 * techniques", CACM 27 (1984), finds it in one pass down the diagonal): stripes of the self-similarity matrix as in
 * Goto 2006.
 * @returns those that are worth a section, the best first
 */
export function alikeRuns(likeness: BarLikeness): AlikeRun[] {
  const { count } = likeness;
  const runs: AlikeRun[] = [];
  for (let semitones = 0; semitones < 12; semitones++) {
    const least = FORM.sectionCost + (semitones === 0 ? 0 : FORM.transposeCost);
    for (let lag = FORM.shortestRun; lag + FORM.shortestRun <= count; lag++) {
      let best: AlikeRun | null = null;
      let from = lag;
      let gain = 0;
      for (let bar = lag; bar < count; bar++) {
        if (gain <= 0) {
          gain = 0;
          from = bar;
        }
        gain += likeness.ofRun(bar, bar - lag, 1, semitones) - FORM.repeatBar;
        if (gain > (best?.gain ?? least)) best = { from, to: bar + 1, lag, semitones, gain };
      }
      if (best) runs.push(best);
    }
  }
  return runs.sort((a, b) => b.gain - a.gain);
}
