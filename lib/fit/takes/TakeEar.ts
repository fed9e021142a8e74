import type { Signal } from "@/lib/dsp/Signal";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Seconds } from "@/lib/units/quantities";
import type { FitEar } from "../FitEar";
import { FIT_ODDS } from "../fittedOdds";
import { PassageFit } from "../PassageFit";
import { LOOK } from "./takeParameters";
import type { TakePick } from "./takePicks";

/** Looks at a take, each pick once: what sounds from it to the next. */
export class TakeEar {
  private readonly looks = new Map<number, PassageFit>();

  /**
   * @param signal at the ear's rate and level
   * @param picks in order of time
   */
  constructor(
    private readonly ear: FitEar,
    private readonly signal: Signal,
    readonly picks: readonly TakePick[],
  ) {}

  /** What sounds after a pick. */
  at(pick: number): PassageFit {
    let fit = this.looks.get(pick);
    if (!fit) {
      const startSec = this.picks[pick]!.atSec;
      const nextSec = this.picks[pick + 1]?.atSec ?? Number.POSITIVE_INFINITY;
      fit = this.over(stretchFrom(startSec, nextSec));
      this.looks.set(pick, fit);
    }
    return fit;
  }

  /** What sounds in a stretch of the take. */
  over(stretch: HeardStretch): PassageFit {
    return new PassageFit(this.ear.look({ signal: this.signal, side: null }, stretch), FIT_ODDS);
  }
}

/** From a moment to the next, as long as a look takes. */
export function stretchFrom(startSec: Seconds, nextSec: Seconds): HeardStretch {
  const longest = Math.min(nextSec, startSec + LOOK.longestSec);
  return { startSec, endSec: Math.max(longest, startSec + LOOK.shortestSec) };
}
