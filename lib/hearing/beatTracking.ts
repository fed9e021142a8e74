import { parabolaOffset } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BEATS } from "./parameters";

/** Beats that follow one another, and where their flow breaks off. */
export interface TrackedBeats {
  timesSec: Seconds[];
  /** Numbers of the beats that begin anew: after a held note, silence or free time, or in another tempo. */
  afterBreak: number[];
}

/** How a beat was reached: a step of the period (in states, so small numbers), or one of these. */
const BEGINNING = -128;
const BREAK = 127;

/**
 * The chain of beats with the most onset strength under it whose period stays near `periodSec` and changes
 * slowly. Dynamic programming over beat time (D. Ellis, JNMR 36 (2007)) with the period as part of the state
 * and a cost on its change from beat to beat: the tempo transitions of the bar pointer (N. Whiteley, A. T. Cemgil and
 * S. Godsill, "Bayesian modelling of temporal structure in musical audio", ISMIR 2006) as F. Krebs, S. Boeck and
 * G. Widmer place them on beats ("An efficient state-space model for joint tempo and meter tracking", ISMIR 2015).
 * At a cost the flow may break off and begin anew at any later time in another tempo, but not in one that would be
 * another level of the same metre.
 * @param onset onset strength, 0 up
 * @returns over the whole record
 */
export function trackBeats(onset: Float64Array, frameRateHz: Hertz, periodSec: Seconds): TrackedBeats {
  const trellis = new BeatTrellis(onset.length, periodSec * frameRateHz);
  if (onset.length <= trellis.longest) return { timesSec: [], afterBreak: [] };
  const mean = onset.reduce((sum, value) => sum + value, 0) / onset.length;
  for (let t = 0; t < onset.length; t++) trellis.beat(t, BEATS.onsetWeight * (smoothed(onset, t) - mean));
  const { frames, afterBreak } = trellis.readBack();
  const timesSec = frames.map(
    (t) => (t + parabolaOffset(onset[t - 1] ?? 0, onset[t]!, onset[t + 1] ?? 0)) / frameRateHz,
  );
  return { timesSec, afterBreak };
}

/** Onset strength with a little of its neighbours, so that a player's spread of a few milliseconds costs little. */
function smoothed(onset: Float64Array, t: number): number {
  const here = onset[t]!;
  return (here * 2 + (onset[t - 1] ?? 0) + (onset[t + 1] ?? 0)) / 4;
}

/** Whether one period is about twice, three times or one and a half times the other. */
function areLevelsOfOneMetre(from: number, to: number): boolean {
  const ratio = Math.abs(Math.log(from / to));
  return BEATS.levels.some((level) => Math.abs(ratio - Math.log(level)) < BEATS.levelWidth);
}

/** Best chains by their last beat and its period, both in frames. Keeps one byte a cell for reading back. */
class BeatTrellis {
  readonly shortest: number;
  readonly longest: number;
  private readonly states: number;
  /** Cost of each period, a beat. */
  private readonly prior: Float64Array;
  /** Cost of coming to a state from another, at [to * states + from]. */
  private readonly change: Float32Array;
  private readonly reaches: Int32Array;
  /** Whether two periods would be levels of one metre, at [from * states + to]. */
  private readonly otherLevel: Uint8Array;
  /** Scores of the last `longest` frames, in turn. */
  private readonly best: Float32Array;
  private readonly cameFrom: Int8Array;
  /** The best chain that ends at each frame: its score and state. */
  private readonly topScore: Float32Array;
  private readonly topState: Int16Array;
  /** Where the best chain ended that a break before this frame can go on from. */
  private readonly leftAt: Int32Array;

  constructor(count: number, centre: number) {
    this.shortest = Math.max(2, Math.floor(centre / BEATS.periodRange));
    this.longest = Math.ceil(centre * BEATS.periodRange);
    this.states = this.longest - this.shortest + 1;
    const { shortest, states } = this;
    const periods = Float64Array.from({ length: states }, (_, s) => shortest + s);
    this.prior = periods.map((period) => BEATS.periodWeight * Math.log(period / centre) ** 2);
    this.change = Float32Array.from({ length: states * states }, (_, at) => {
      const to = Math.floor(at / states);
      return BEATS.changeWeight * Math.log(periods[to]! / periods[at % states]!) ** 2 + this.prior[to]!;
    });
    this.reaches = Int32Array.from(periods, (period) => Math.max(1, Math.ceil(period * BEATS.changeReach)));
    this.otherLevel = Uint8Array.from({ length: states * states }, (_, at) =>
      areLevelsOfOneMetre(periods[Math.floor(at / states)]!, periods[at % states]!) ? 1 : 0,
    );
    this.best = new Float32Array(this.longest * states);
    this.cameFrom = new Int8Array(count * states);
    this.topScore = new Float32Array(count);
    this.topState = new Int16Array(count);
    this.leftAt = new Int32Array(count).fill(-1);
  }

  /** A beat at frame `t`, worth so much, at the end of the best chain for each period. Frames come in order. */
  beat(t: number, reward: number): void {
    const { shortest, longest, states, prior, change, best, cameFrom } = this;
    const left = this.leaveAt(t);
    const here = (t % longest) * states;
    let top = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < states; s++) {
      const before = t - (shortest + s);
      let score = before < 0 ? -prior[s]! : Number.NEGATIVE_INFINITY;
      let from = BEGINNING;
      if (before >= 0) {
        const row = (before % longest) * states;
        const reach = this.reaches[s]!;
        const high = Math.min(states - 1, s + reach);
        for (let q = Math.max(0, s - reach); q <= high; q++) {
          const value = best[row + q]! - change[s * states + q]!;
          if (value <= score) continue;
          score = value;
          from = q - s;
        }
      }
      if (left >= 0) {
        const value = this.topScore[left]! - BEATS.breakCost - prior[s]!;
        if (value > score && this.otherLevel[this.topState[left]! * states + s] === 0) {
          score = value;
          from = BREAK;
        }
      }
      best[here + s] = score + reward;
      cameFrom[t * states + s] = from;
      if (score + reward <= top) continue;
      top = score + reward;
      this.topState[t] = s;
    }
    this.topScore[t] = top;
  }

  /** The frame before `t`, by a beat or more, at which the best chain ended so far; -1 for none. */
  private leaveAt(t: number): number {
    const latest = t - this.shortest;
    if (latest < 0) return -1;
    const known = t > 0 ? this.leftAt[t - 1]! : -1;
    this.leftAt[t] = known < 0 || this.topScore[latest]! > this.topScore[known]! ? latest : known;
    return this.leftAt[t]!;
  }

  /** Follows the best chain back from the last period of the record. */
  readBack(): { frames: number[]; afterBreak: number[] } {
    const { shortest, longest, states, best, cameFrom } = this;
    const count = this.topScore.length;
    let t = 0;
    let s = 0;
    let top = Number.NEGATIVE_INFINITY;
    for (let u = Math.max(0, count - longest); u < count; u++) {
      for (let q = 0; q < states; q++) {
        // A chain may end only where no further beat of its period would fit.
        const score = best[(u % longest) * states + q]!;
        if (u + shortest + q < count || score <= top) continue;
        top = score;
        t = u;
        s = q;
      }
    }
    const frames: number[] = [];
    const breaks: number[] = [];
    for (;;) {
      frames.push(t);
      const from = cameFrom[t * states + s]!;
      if (from === BEGINNING) break;
      if (from === BREAK) {
        breaks.push(frames.length - 1);
        const left = this.leftAt[t]!;
        s = this.topState[left]!;
        t = left;
      } else {
        t -= shortest + s;
        s += from;
      }
    }
    return { frames: frames.reverse(), afterBreak: breaks.reverse().map((i) => frames.length - 1 - i) };
  }
}
