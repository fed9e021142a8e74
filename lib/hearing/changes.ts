import { CHORD_STATES } from "./chordVocabulary";
import { CHANGES, CONFIDENCE, VOCABULARY } from "./parameters";
import { likeliestPath, posteriors, type StayOrChange } from "./stayOrChange";

/** Where in the bar a stretch begins. */
export type StretchStart = "halfBeat" | "beat" | "midBar" | "downbeat";

/** A run of stretches under one chord state. */
export interface ChordRun {
  /** Index into CHORD_STATES. */
  state: number;
  /** First stretch and the one after the last. */
  from: number;
  to: number;
  /** Mean posterior of the state over the run, calibrated; 0 to 1. */
  confidence: number;
}

const CHANGE_PROBABILITY: Record<StretchStart, number> = {
  halfBeat: CHANGES.onHalfBeat,
  beat: CHANGES.onBeat,
  midBar: CHANGES.onMidBar,
  downbeat: CHANGES.onDownbeat,
};

/** Log prior of each chord state before a key is known, summing to 1. */
export function plainLogPrior(): Float64Array {
  return normalisedLog(
    CHORD_STATES.map(({ chord }) =>
      chord ? chord.type.logPrior - Math.log(12) : VOCABULARY.noChordLogPrior,
    ),
  );
}

export function normalisedLog(values: number[]): Float64Array {
  const total = values.reduce((sum, value) => sum + Math.exp(value), 0);
  return Float64Array.from(values, (value) => value - Math.log(total));
}

/**
 * The likeliest chords over the stretches: a hidden Markov model whose changes are likeliest on downbeats and
 * rare between beats (chords tied to beats and bars: Papadopoulos & Peeters 2011; Mauch & Dixon 2010).
 * @param logPriors of the states in each stretch, as {@link plainLogPrior} or by the key
 */
export function hearChordRuns(
  likelihoods: Float64Array[],
  starts: StretchStart[],
  logPriors: Float64Array[],
): ChordRun[] {
  const model: StayOrChange = {
    likelihoods,
    changeProbability: starts.map((start) => CHANGE_PROBABILITY[start]),
    logTargets: logPriors,
  };
  const path = likeliestPath(model);
  const certain = posteriors(model);
  const runs: ChordRun[] = [];
  for (let i = 0; i < path.length; i++) {
    const last = runs.at(-1);
    if (last && last.state === path[i]) last.to = i + 1;
    else runs.push({ state: path[i]!, from: i, to: i + 1, confidence: 0 });
  }
  for (const run of runs) {
    let sum = 0;
    for (let i = run.from; i < run.to; i++) sum += certain[i]![run.state]!;
    run.confidence = (CONFIDENCE.chordCeiling * sum) / (run.to - run.from);
  }
  return runs;
}
