import { movesInKeys } from "./chordMoves";
import { CHORD_STATES } from "./chordVocabulary";
import { CHANGES, CHORD_CERTAINTY } from "./harmonyParameters";
import { logOdds } from "./logOdds";
import { plainLogPrior } from "./plainPrior";
import { likeliestSegments, type Segment, type SegmentModel, segmentPosteriors } from "./segmentModel";
import type { Stretches, StretchStart } from "./stretches";

/** A run of stretches under one chord. */
export interface ChordRun extends Segment {
  /** Which tone of the chord its bass holds, by place in ChordType: 0 is the root. */
  bassPlace: number;
  /** Mean probability of the chord over the run, 0 to 1. */
  confidence: number;
}

/** The likeliest chords of the stretches, and how likely each was. */
export interface HeardChanges {
  /** States of CHORD_STATES, in order, without gaps; neighbours differ. Basses all on the root. */
  runs: ChordRun[];
  /** Probability of each state of CHORD_STATES in each stretch. */
  certain: Float64Array[];
}

/** Log odds of a change where a stretch begins. */
const LOG_START: Record<StretchStart, number> = {
  offBeat: logOdds(CHANGES.onOffBeat),
  push: logOdds(CHANGES.onPush),
  beat: logOdds(CHANGES.onBeat),
  midBar: logOdds(CHANGES.onMidBar),
  downbeat: logOdds(CHANGES.onDownbeat),
};

/**
 * A first sketch of the chords, before bars and keys are known: a hidden Markov model that stays, or
 * changes to any chord as its prior has it; as a segment model, one in which lengths weigh nothing.
 * @returns runs as in {@link HeardChanges}
 */
export function sketchChanges(likelihoods: readonly Float64Array[], { starts }: Stretches): Segment[] {
  const logFirst = plainLogPrior();
  const shares = logFirst.map(Math.exp);
  const moves = Float64Array.from(CHORD_STATES.flatMap(() => [...shares]));
  const segments = likeliestSegments({
    likelihoods,
    logFirst,
    moves: () => moves,
    logSegment: (from) => (from > 0 ? LOG_START[starts[from]!] : 0),
    longest: 1,
    goesOn: true,
  });
  return joined(segments);
}

/**
 * The chords in bars and keys: a semi-Markov model (see {@link SegmentModel}) in which chords begin most readily on
 * strong beats (chords tied to bars: H. Papadopoulos and G. Peeters, IEEE TASLP 19 (2011)), last for beats, and follow
 * one another as the key has it. A chord may come in an eighth ahead of its beat; its length counts from the beat, so
 * one that dies away on the beat it leads to is rare, and one that is held is not.
 * @param likelihoods log-likelihood of each of CHORD_STATES in each stretch
 * @param keys probability of each of KEY_STATES in each stretch
 * @param temperature what all log weights are divided by for the certainties, see CHORD_CERTAINTY
 */
export function hearChanges(
  likelihoods: readonly Float64Array[],
  stretches: Stretches,
  keys: readonly Float64Array[],
  temperature: number = CHORD_CERTAINTY.temperature,
): HeardChanges {
  const model = changesModel(likelihoods, stretches, keys, 1);
  const cooler = changesModel(likelihoods, stretches, keys, temperature);
  const certain = segmentPosteriors(cooler);
  const runs = joined(likeliestSegments(model)).map((run) => ({
    ...run,
    bassPlace: 0,
    confidence: meanOver(certain, run)[run.state]!,
  }));
  return { runs, certain };
}

/** Mean probability of each state over a run; divided last, so that rounding makes none more than certain. */
export function meanOver(
  certain: readonly Float64Array[],
  { from, to }: Omit<Segment, "state">,
): Float64Array {
  const mean = new Float64Array(certain[from]!.length);
  for (let i = from; i < to; i++) {
    for (let s = 0; s < mean.length; s++) mean[s]! += certain[i]![s]!;
  }
  return mean.map((sum) => sum / (to - from));
}

function changesModel(
  likelihoods: readonly Float64Array[],
  { starts, beatOf }: Stretches,
  keys: readonly Float64Array[],
  temperature: number,
): SegmentModel {
  const { logLengths } = CHANGES;
  return {
    likelihoods:
      temperature === 1 ? likelihoods : likelihoods.map((row) => row.map((value) => value / temperature)),
    logFirst: plainLogPrior().map((value) => value / temperature),
    moves: movesInKeys(keys, temperature),
    logSegment: (from, to) => {
      const length = beatOf[to]! - beatOf[from]!;
      return (
        (from > 0 ? LOG_START[starts[from]!] / temperature : 0) +
        (logLengths[length] ?? logLengths.at(-1)!) / temperature
      );
    },
    longest: CHANGES.longest,
  };
}

function joined(segments: readonly Segment[]): Segment[] {
  const runs: Segment[] = [];
  for (const segment of segments) {
    const last = runs.at(-1);
    if (last && last.state === segment.state) last.to = segment.to;
    else runs.push({ ...segment });
  }
  return runs;
}
