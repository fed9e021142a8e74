import { parabolaOffset } from "@/lib/dsp/running";
import { bestStepKernel } from "@/lib/dsp/simd/bestStepKernel";
import { type Address, KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { type Kernel, startKernels } from "@/lib/dsp/simd/startKernels";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BEATS } from "./beatParameters";

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

/**
 * Best chains by their last beat and its period, both in frames. Keeps one byte a cell for reading back.
 *
 * Scores stand where the next beat in the same tempo would fall: that of a beat at frame u in state q in row u + q, so
 * that for all states of a later beat the scores a given number of states away lie side by side.
 */
class BeatTrellis {
  readonly shortest: number;
  readonly longest: number;
  private readonly states: number;
  /** Cost of each period, a beat. */
  private readonly prior: Float64Array;
  private readonly memory = new KernelMemory();
  private readonly bestStep: Kernel;
  /** Largest step from state to state. */
  private readonly reach: number;
  /** For each step, its cost by the state that it comes to, and the step itself as a float. */
  private readonly steps: { costs: Address; label: Address; places: number }[];
  /** Rows of scores, in turn, with room for a step beyond at both ends of each. */
  private readonly rows: number;
  private readonly rowFloats: number;
  private readonly best: Address;
  private readonly scores: Address;
  private readonly labels: Address;
  /** Whether two periods would be levels of one metre, at [from * states + to]. */
  private readonly otherLevel: Uint8Array;
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
    const reaches = periods.map((period) => Math.max(1, Math.ceil(period * BEATS.changeReach)));
    this.reach = reaches.at(-1)!;
    const { memory, reach, prior } = this;
    this.bestStep = startKernels(memory, [bestStepKernel()]).bestStep!;
    this.steps = Array.from({ length: 2 * reach + 1 }, (_, i) => {
      const places = i - reach;
      const costs = Float32Array.from({ length: 4 * Math.ceil(states / 4) }, (_, to) => {
        const from = to + places;
        const isOut = to >= states || from < 0 || from >= states || Math.abs(places) > reaches[to]!;
        if (isOut) return Number.POSITIVE_INFINITY;
        return BEATS.changeWeight * Math.log(periods[to]! / periods[from]!) ** 2 + prior[to]!;
      });
      return { costs: memory.keep(costs), label: memory.keep([places]), places };
    });
    this.rows = this.longest + reach + 1;
    this.rowFloats = 4 * Math.ceil(states / 4) + 2 * reach;
    this.best = memory.take(this.rows * this.rowFloats);
    this.scores = memory.take(states);
    this.labels = memory.take(states);
    this.otherLevel = Uint8Array.from({ length: states * states }, (_, at) =>
      areLevelsOfOneMetre(periods[Math.floor(at / states)]!, periods[at % states]!) ? 1 : 0,
    );
    this.cameFrom = new Int8Array(count * states);
    this.topScore = new Float32Array(count);
    this.topState = new Int16Array(count);
    this.leftAt = new Int32Array(count).fill(-1);
  }

  /** A beat at frame `t`, worth so much, at the end of the best chain for each period. Frames come in order. */
  beat(t: number, reward: number): void {
    const { shortest, states, prior, cameFrom } = this;
    const left = this.leaveAt(t);
    this.continueChains(t);
    const { floats } = this.memory;
    let top = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < states; s++) {
      let score = floats[this.scores / 4 + s]!;
      let from = floats[this.labels / 4 + s]!;
      if (t < shortest + s) {
        score = -prior[s]!;
        from = BEGINNING;
      }
      if (left >= 0) {
        const value = this.topScore[left]! - BEATS.breakCost - prior[s]!;
        if (value > score && this.otherLevel[this.topState[left]! * states + s] === 0) {
          score = value;
          from = BREAK;
        }
      }
      floats[this.scoreAt(t, s)] = score + reward;
      cameFrom[t * states + s] = from;
      if (score + reward <= top) continue;
      top = score + reward;
      this.topState[t] = s;
    }
    this.topScore[t] = top;
  }

  /** The best score of a beat at `t` in each state as the next of a chain, and the step to it. */
  private continueChains(t: number): void {
    const { memory, best, rows, rowFloats, reach, shortest, scores, labels, states } = this;
    memory.floats.fill(Number.NEGATIVE_INFINITY, scores / 4, scores / 4 + states);
    for (const { costs, label, places } of this.steps) {
      const row = t - shortest + places;
      if (row < 0) continue;
      const values = best + 4 * ((row % rows) * rowFloats + reach + places);
      this.bestStep(values, costs, scores, labels, label, Math.ceil(states / 4));
    }
  }

  /** Place among the floats of the score of a beat at `t` in a state. */
  private scoreAt(t: number, state: number): number {
    return this.best / 4 + ((t + state) % this.rows) * this.rowFloats + this.reach + state;
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
    const { shortest, longest, states, cameFrom } = this;
    const { floats } = this.memory;
    const count = this.topScore.length;
    let t = 0;
    let s = 0;
    let top = Number.NEGATIVE_INFINITY;
    for (let u = Math.max(0, count - longest); u < count; u++) {
      for (let q = 0; q < states; q++) {
        // A chain may end only where no further beat of its period would fit.
        const score = floats[this.scoreAt(u, q)]!;
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
