import type { StretchChroma } from "./chroma";
import { HOMES, KEY_CERTAINTY } from "./harmonyParameters";
import { keyEvidence } from "./keyEvidence";
import { KEY_STATES } from "./keyStates";
import { likeliestSegments, type Segment, type SegmentModel, segmentPosteriors } from "./segmentModel";
import type { Stretches } from "./stretches";

/** The keys along the record. */
export interface KeyWalk {
  /** Key state of each stretch. */
  path: number[];
  /** Probability of each key state in each stretch. */
  certain: Float64Array[];
}

/**
 * The key in each stretch: a semi-Markov model over 24 keys (a Markov model of keys: K. Noland and M. Sandler, "Key
 * estimation using a hidden Markov model", ISMIR 2006; along the bars of a record: H. Papadopoulos and G. Peeters,
 * "Local key estimation from an audio signal relying on harmonic and metrical structures", IEEE TASLP 20 (2012)). A key
 * lasts for phrases and gives way
 * to another on a downbeat, most readily to one a half or a whole step up; what it answers for is told at
 * {@link keyEvidence}.
 */
export function hearKeys(
  chroma: readonly StretchChroma[],
  runs: readonly Segment[],
  stretches: Stretches,
): KeyWalk {
  const evidence = keyEvidence(chroma, runs, stretches);
  const firsts = beginnings(stretches);
  const path = new Array<number>(chroma.length).fill(0);
  const spread = <T>(values: readonly T[], put: (stretch: number, value: T) => void): void => {
    values.forEach((value, step) => {
      const to = firsts[step + 1] ?? chroma.length;
      for (let i = firsts[step]!; i < to; i++) put(i, value);
    });
  };
  for (const { state, from, to } of likeliestSegments(keysModel(evidence, firsts, stretches, 1))) {
    for (let i = firsts[from]!; i < (firsts[to] ?? chroma.length); i++) path[i] = state;
  }
  const certain = new Array<Float64Array>(chroma.length);
  const cooler = keysModel(evidence, firsts, stretches, KEY_CERTAINTY.temperature);
  spread(segmentPosteriors(cooler), (stretch, row) => {
    certain[stretch] = row;
  });
  return { path, certain };
}

/** The first stretch of each beat: keys change on beats only. */
function beginnings({ starts }: Stretches): number[] {
  const firsts = [0];
  for (let i = 1; i < starts.length; i++) {
    if (starts[i] !== "offBeat" && starts[i] !== "push") firsts.push(i);
  }
  return firsts;
}

const EVEN = new Float64Array(KEY_STATES.length).fill(-Math.log(KEY_STATES.length));

/** Probability of each key after each, row by row. */
const KEY_MOVES = Float64Array.from(
  KEY_STATES.flatMap((before) => {
    const row = KEY_STATES.map((after): number => {
      if (after === before) return 0;
      const up = (after.tonic - before.tonic + 12) % 12;
      return up <= 2 && after.mode === before.mode ? HOMES.stepUp : 1;
    });
    const total = row.reduce((sum, value) => sum + value, 0);
    return row.map((value) => value / total);
  }),
);

function keysModel(
  evidence: readonly Float64Array[],
  firsts: readonly number[],
  { starts, beats }: Stretches,
  temperature: number,
): SegmentModel {
  const time = [0];
  const rows = firsts.map((first, step) => {
    const to = firsts[step + 1] ?? evidence.length;
    const row = new Float64Array(KEY_STATES.length);
    let length = 0;
    for (let i = first; i < to; i++) {
      length += beats[i]!;
      for (let k = 0; k < row.length; k++) row[k]! += evidence[i]![k]! / temperature;
    }
    time.push(time.at(-1)! + length);
    return row;
  });
  return {
    likelihoods: rows,
    logFirst: EVEN,
    moves: () => KEY_MOVES,
    logSegment: (from, to) => {
      const start =
        from === 0 ? 0 : starts[firsts[from]!] === "downbeat" ? HOMES.logOnDownbeat : HOMES.logOnBeat;
      const cutShort = from === 0 || to === rows.length;
      const short = !cutShort && time[to]! - time[from]! < HOMES.phraseBeats;
      return start + (short ? HOMES.logShort : 0);
    },
    longest: stepsInPhrase(time),
    goesOn: true,
  };
}

/** So many steps last as long as a phrase wherever they begin; keys that last longer than that weigh all the same. */
function stepsInPhrase(time: readonly number[]): number {
  let most = 1;
  for (let from = 0, to = 1; from < time.length; from++) {
    while (to < time.length && (to <= from || time[to]! - time[from]! < HOMES.phraseBeats)) to += 1;
    most = Math.max(most, Math.min(to, time.length - 1) - from);
  }
  return most;
}
