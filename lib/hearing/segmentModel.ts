/**
 * A hidden semi-Markov model: the steps of a record fall into segments, each of one state, and a segment is likely by
 * its place and length, by the state before it and by all that is heard in it. Explicit durations for chords: R. Chen,
 * W. Shen, A. Srinivasamurthy and P. Chordia, "Chord recognition using duration-explicit hidden Markov models", ISMIR
 * 2012; the recursions after S.-Z. Yu, "Hidden semi-Markov models", Artificial Intelligence 174 (2010).
 */
export interface SegmentModel {
  /** Log-likelihood of each state at each step. */
  likelihoods: readonly Float64Array[];
  /** Log probability of each state of the first segment. */
  logFirst: Float64Array;
  /**
   * Probability of each state after each, row by row, at a step where a segment begins. Steps that share one array
   * share one table.
   */
  moves: (step: number) => Float64Array;
  /** Log weight of a segment from step `from` up to, not including, step `to`. */
  logSegment: (from: number, to: number) => number;
  /** Steps of the longest segment. */
  longest: number;
  /**
   * Whether segments may go on for longer than that, at the weight that one of `longest` steps has from the same step.
   * The work then still grows with the length of the record, not with its square.
   */
  goesOn?: boolean;
}

export interface Segment {
  state: number;
  /** First step and the one after the last. */
  from: number;
  to: number;
}

/** The likeliest segments, in order, without gaps (Viterbi). */
export function likeliestSegments(model: SegmentModel): Segment[] {
  const { likelihoods, logFirst, longest, goesOn = false } = model;
  const count = likelihoods.length;
  if (count === 0) return [];
  const states = logFirst.length;
  const sums = cumulative(likelihoods, states);
  // entered[t]: best score up to step t of all that begins a segment there; cameFrom[t]: the state before it.
  const entered: Float64Array[] = [logFirst];
  const cameFrom: Int16Array[] = [new Int16Array(states)];
  const startOf: Int32Array[] = [];
  // Of the segments that are as long as may be, or longer: the best, and where it begins.
  const old = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
  const oldStarts = new Int32Array(states);
  const logMoves = new LogTables();
  let ended = new Float64Array(states);
  for (let to = 1; to <= count; to++) {
    ended = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
    const starts = new Int32Array(states);
    for (let from = to - 1; from >= Math.max(0, to - longest); from--) {
      const weight = model.logSegment(from, to);
      const entry = entered[from]!;
      const before = sums[from]!;
      for (let s = 0; s < states; s++) {
        const score = entry[s]! - before[s]! + weight;
        if (score > ended[s]!) {
          ended[s] = score;
          starts[s] = from;
        }
      }
    }
    if (goesOn && to >= longest) {
      const from = to - longest;
      const weight = model.logSegment(from, to);
      for (let s = 0; s < states; s++) {
        const score = entered[from]![s]! - sums[from]![s]! + weight;
        if (score > old[s]!) {
          old[s] = score;
          oldStarts[s] = from;
        }
        if (old[s]! > ended[s]!) {
          ended[s] = old[s]!;
          starts[s] = oldStarts[s]!;
        }
      }
    }
    for (let s = 0; s < states; s++) ended[s]! += sums[to]![s]!;
    startOf.push(starts);
    if (to === count) break;
    const table = logMoves.of(model.moves(to));
    const next = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
    const origins = new Int16Array(states);
    for (let i = 0; i < states; i++) {
      for (let s = 0; s < states; s++) {
        const score = ended[i]! + table[i * states + s]!;
        if (score > next[s]!) {
          next[s] = score;
          origins[s] = i;
        }
      }
    }
    entered.push(next);
    cameFrom.push(origins);
  }
  const segments: Segment[] = [];
  let state = ended.indexOf(Math.max(...ended));
  for (let to = count; to > 0; ) {
    const from = startOf[to - 1]![state]!;
    segments.push({ state, from, to });
    state = cameFrom[from]![state]!;
    to = from;
  }
  return segments.reverse();
}

/** Probability of each state at each step, given all steps (forward-backward). */
export function segmentPosteriors(model: SegmentModel): Float64Array[] {
  const { likelihoods, logFirst, longest, goesOn = false } = model;
  const count = likelihoods.length;
  if (count === 0) return [];
  const states = logFirst.length;
  const weights = likelihoods.map((row) => {
    const top = Math.max(...row);
    return row.map((value) => Math.exp(value - top));
  });
  // Forward: entered[t] is brought to sum 1, growth[t] times from step to step. Runs grow with it as they get longer:
  // their weight alone is soon too small for a number, and what brings it back too large.
  const entered: Float64Array[] = [scaled(logFirst.map(Math.exp)).row];
  const growth = new Float64Array(count);
  let last = new Float64Array(states);
  const run = new Float64Array(states);
  // old[t]: weight up to step t of the segments that are then as long as may be, or longer.
  const old: Float64Array[] = [new Float64Array(states)];
  for (let to = 1; to <= count; to++) {
    const ended = new Float64Array(states);
    const aged = goesOn ? old[to - 1]!.map((value, s) => value * weights[to - 1]![s]!) : old[0]!;
    for (let s = 0; s < states; s++) ended[s]! += aged[s]!;
    run.fill(1);
    for (let from = to - 1; from >= Math.max(0, to - longest); from--) {
      const factor = Math.exp(model.logSegment(from, to));
      const heard = weights[from]!;
      const entry = entered[from]!;
      const grown = from + 1 < to ? growth[from]! : 1;
      for (let s = 0; s < states; s++) {
        run[s]! *= heard[s]! * grown;
        const value = factor * run[s]! * entry[s]!;
        ended[s]! += value;
        if (goesOn && to - from === longest) aged[s]! += value;
      }
    }
    const { row, log } = scaled(to === count ? ended : moved(ended, model.moves(to), false));
    growth[to - 1] = Math.exp(-log);
    if (goesOn) old.push(aged.map((value) => value * growth[to - 1]!));
    if (to === count) last = row;
    else entered.push(row);
  }
  // Backward: leaving[t] is the weight of all after step t for a segment that ends there, on the forward's scale.
  const leaving: Float64Array[] = new Array(count + 1);
  const found = likelihoods.map(() => new Float64Array(states));
  leaving[count] = new Float64Array(states).fill(1);
  // The same for a segment that may end there or go on.
  const onward: Float64Array[] = new Array(count + 1);
  onward[count] = leaving[count];
  const total = last.reduce((sum, value) => sum + value, 0);
  const opened = Array.from({ length: count + 1 }, () => new Float64Array(states));
  for (let from = count - 1; from >= 0; from--) {
    const ahead = new Float64Array(states);
    const entry = entered[from]!;
    run.fill(1);
    for (let to = from + 1; to <= Math.min(count, from + longest); to++) {
      const factor = Math.exp(model.logSegment(from, to));
      const grown = growth[to - 1]!;
      const heard = weights[to - 1]!;
      const isOld = goesOn && to - from === longest;
      const after = isOld ? onward[to]! : leaving[to]!;
      const begun = opened[from]!;
      const closed = opened[to]!;
      for (let s = 0; s < states; s++) {
        run[s]! *= heard[s]! * grown;
        const value = factor * run[s]! * after[s]!;
        ahead[s]! += value;
        const share = (value * entry[s]!) / total;
        begun[s]! += share;
        if (!isOld) closed[s]! -= share;
      }
    }
    if (from === 0) break;
    const left = moved(ahead, model.moves(from), true);
    leaving[from] = left;
    if (!goesOn) continue;
    const heard = weights[from]!;
    onward[from] = left.map((value, s) => value + heard[s]! * growth[from]! * onward[from + 1]![s]!);
    const closed = opened[from]!;
    for (let s = 0; s < states; s++) closed[s]! -= (old[from]![s]! * left[s]!) / total;
  }
  const open = new Float64Array(states);
  for (let t = 0; t < count; t++) {
    for (let s = 0; s < states; s++) open[s]! += opened[t]![s]!;
    found[t] = scaled(open.map((value) => Math.max(0, value))).row;
  }
  return found;
}

/** Weights of the states after a move, or with `back` of those before it. */
function moved(weights: Float64Array, table: Float64Array, back: boolean): Float64Array<ArrayBuffer> {
  const states = weights.length;
  const result = new Float64Array(states);
  for (let i = 0; i < states; i++) {
    let sum = 0;
    for (let s = 0; s < states; s++) {
      if (back) sum += table[i * states + s]! * weights[s]!;
      else result[s]! += table[i * states + s]! * weights[i]!;
    }
    if (back) result[i] = sum;
  }
  return result;
}

function scaled(row: Float64Array<ArrayBuffer>): { row: Float64Array<ArrayBuffer>; log: number } {
  const sum = row.reduce((total, value) => total + value, 0);
  if (sum > 0) return { row: row.map((value) => value / sum), log: Math.log(sum) };
  return { row: row.fill(1 / row.length), log: 0 };
}

function cumulative(rows: readonly Float64Array[], width: number): Float64Array[] {
  const sums = [new Float64Array(width)];
  for (const row of rows) {
    const before = sums.at(-1)!;
    sums.push(row.map((value, s) => before[s]! + value));
  }
  return sums;
}

/** Logs of the last table asked for, so that neighbouring steps work them out once. */
class LogTables {
  private table: Float64Array | null = null;
  private logs = new Float64Array(0);

  of(table: Float64Array): Float64Array {
    if (table !== this.table) {
      this.table = table;
      this.logs = table.map(Math.log);
    }
    return this.logs;
  }
}
