import type { Seconds } from "@/lib/units/quantities";
import { type HeardBars, hearBars } from "./bars";
import { type ChordRun, hearChanges, sketchChanges } from "./changes";
import { chordLikelihoods } from "./chordTemplates";
import type { StretchChroma } from "./chroma";
import { CHORD_CERTAINTY } from "./harmonyParameters";
import { hearKeys, type KeyWalk } from "./homes";
import { type BassChances, learnedBassChances, signalBassChances, withBass } from "./inversion";
import { type PoolWeights, pooled, stretchPosteriors } from "./learned/chordPosteriors";
import type { LearnedEvidence } from "./learned/LearnedEar";
import type { BeatEvidence } from "./novelty";
import { type RepeatedStretch, sharedBass, sharedLikelihoods } from "./repeatedStretches";
import type { Segment } from "./segmentModel";
import { cutAtBeats, type Stretches } from "./stretches";

/** Bars, changes and keys of a record, which lean on one another. */
export interface HeardHarmony {
  bars: HeardBars;
  stretches: Stretches;
  /** The chords with their basses, in order, without gaps. */
  runs: ChordRun[];
  /** Probability of each state of CHORD_STATES in each stretch. */
  certain: Float64Array[];
  keys: KeyWalk;
}

export interface HarmonyEvidence {
  beatsSec: Seconds[];
  /** Parts that a beat falls into. */
  division: 2 | 3;
  beatEvidence: BeatEvidence;
  /** Chroma of the stretches that {@link cutAtBeats} cuts. */
  chroma: StretchChroma[];
  /** Chords as a learned ear hears them; null where there is none. */
  learned: Pick<LearnedEvidence, "chordSteps" | "qualities"> | null;
  durationSec: Seconds;
  /** How the two ears' chords are weighed; by LEARNED_CHORDS unless others are to be tried. */
  pool?: PoolWeights;
}

/**
 * Finds stretches that play the same in what was heard so far, in groups; a group of one says nothing.
 */
export type FindRepeats = (heard: HeardHarmony) => readonly (readonly RepeatedStretch[])[];

/**
 * Chords are sketched without key and bars, which they then help to find, and heard in those. Where repeats are found
 * in what was heard, they are heard once more, sharing their evidence.
 */
export function hearHarmony(evidence: HarmonyEvidence, findRepeats?: FindRepeats): HeardHarmony {
  const { beatsSec, division, beatEvidence, chroma, learned, durationSec, pool } = evidence;
  const unbarred = cutAtBeats(beatsSec, null, durationSec, division);
  const signal = chordLikelihoods(chroma, learned !== null);
  const posteriors = learned && stretchPosteriors(learned, unbarred.edgesSec);
  const likelihoods = posteriors ? pooled(signal, posteriors, pool) : signal;
  const bass = posteriors ? learnedBassChances(posteriors) : signalBassChances(chroma);
  const temperature = learned ? CHORD_CERTAINTY.temperature : CHORD_CERTAINTY.signalTemperature;
  const sketch = sketchChanges(likelihoods, unbarred);
  const bars = hearBars(beatsSec, beatEvidence, changesAtBeats(beatsSec, sketch, unbarred));
  const stretches = cutAtBeats(beatsSec, bars, durationSec, division);
  const hearIn = (
    heard: readonly Float64Array[],
    basses: readonly BassChances[],
    keys: KeyWalk,
  ): HeardHarmony => {
    const { runs, certain } = hearChanges(heard, stretches, keys.certain, temperature);
    return {
      bars,
      stretches,
      runs: withBass(runs, basses, stretches),
      certain,
      keys: hearKeys(chroma, runs, stretches),
    };
  };
  const harmony = hearIn(likelihoods, bass, hearKeys(chroma, sketch, stretches));
  const repeats = findRepeats?.(harmony).filter((group) => group.length > 1) ?? [];
  if (repeats.length === 0) return harmony;
  return hearIn(sharedLikelihoods(likelihoods, repeats), sharedBass(bass, repeats), harmony.keys);
}

/** 1 for each beat at which a run of one chord begins, else 0. */
function changesAtBeats(beatsSec: Seconds[], runs: readonly Segment[], stretches: Stretches): number[] {
  const cuts = new Set(runs.slice(1).map((run) => stretches.edgesSec[run.from]!));
  return beatsSec.map((time) => (cuts.has(time) ? 1 : 0));
}
