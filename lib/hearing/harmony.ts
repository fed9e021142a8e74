import type { Seconds } from "@/lib/units/quantities";
import { type HeardBars, hearBars } from "./bars";
import { type ChordRun, hearChanges, sketchChanges } from "./changes";
import { chordLikelihoods } from "./chordTemplates";
import type { StretchChroma } from "./chroma";
import { hearKeys, type KeyWalk } from "./homes";
import { learnedBassChances, signalBassChances, withBass } from "./inversion";
import { pooled, stretchPosteriors } from "./learned/chordPosteriors";
import type { LearnedEvidence } from "./learned/LearnedEar";
import type { BeatEvidence } from "./novelty";
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
}

/**
 * Chords are heard three times: without a key or bars, then with the keys that those suggest, then with the bars
 * that those suggest.
 */
export function hearHarmony(evidence: HarmonyEvidence): HeardHarmony {
  const { beatsSec, division, beatEvidence, chroma, learned, durationSec } = evidence;
  const unbarred = cutAtBeats(beatsSec, null, durationSec, division);
  const signal = chordLikelihoods(chroma, learned !== null);
  const posteriors = learned && stretchPosteriors(learned, unbarred.edgesSec);
  const likelihoods = posteriors ? pooled(signal, posteriors) : signal;
  const sketch = sketchChanges(likelihoods, unbarred);
  const bars = hearBars(beatsSec, beatEvidence, changesAtBeats(beatsSec, sketch, unbarred));
  const stretches = cutAtBeats(beatsSec, bars, durationSec, division);
  const sketchedKeys = hearKeys(chroma, sketch, stretches);
  const { runs, certain } = hearChanges(likelihoods, stretches, sketchedKeys.certain);
  const keys = hearKeys(chroma, runs, stretches);
  const bass = posteriors ? learnedBassChances(posteriors) : signalBassChances(chroma);
  return { bars, stretches, runs: withBass(runs, bass, stretches), certain, keys };
}

/** 1 for each beat at which a run of one chord begins, else 0. */
function changesAtBeats(beatsSec: Seconds[], runs: readonly Segment[], stretches: Stretches): number[] {
  const cuts = new Set(runs.slice(1).map((run) => stretches.edgesSec[run.from]!));
  return beatsSec.map((time) => (cuts.has(time) ? 1 : 0));
}
