import type { Seconds } from "@/lib/units/quantities";
import { type HeardBars, hearBars } from "./bars";
import { type ChordRun, hearChordRuns, plainLogPrior } from "./changes";
import { chordLikelihoods } from "./chordTemplates";
import type { StretchChroma } from "./chroma";
import { chordPriorInKeys, hearKeys, type KeyWalk } from "./homes";
import { pooled, type StretchPosterior, stretchPosteriors } from "./learned/chordPosteriors";
import type { LearnedEvidence } from "./learned/LearnedEar";
import type { BeatEvidence } from "./novelty";
import { cutAtBeats, type Stretches } from "./stretches";

/** Bars, changes and keys of a record, which lean on one another. */
export interface HeardHarmony {
  bars: HeardBars;
  stretches: Stretches;
  runs: ChordRun[];
  keys: KeyWalk;
  /** What the learned ear hears in each stretch; null where there is none. */
  posteriors: StretchPosterior[] | null;
}

export interface HarmonyEvidence {
  beatsSec: Seconds[];
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
  const { beatsSec, beatEvidence, chroma, learned, durationSec } = evidence;
  const unbarred = cutAtBeats(beatsSec, null, durationSec);
  const signal = chordLikelihoods(chroma, learned !== null);
  const posteriors = learned && stretchPosteriors(learned, unbarred.edgesSec);
  const likelihoods = posteriors ? pooled(signal, posteriors) : signal;
  const plain = plainLogPrior();
  const plainRuns = hearChordRuns(
    likelihoods,
    unbarred.starts,
    chroma.map(() => plain),
  );
  const inKeys = chordPriorInKeys(hearKeys(chroma, plainRuns, unbarred.beats));
  const unbarredRuns = hearChordRuns(likelihoods, unbarred.starts, inKeys);
  const bars = hearBars(beatsSec, beatEvidence, changesAtBeats(beatsSec, unbarredRuns, unbarred));
  const stretches = cutAtBeats(beatsSec, bars, durationSec);
  const runs = hearChordRuns(likelihoods, stretches.starts, inKeys);
  return { bars, stretches, runs, keys: hearKeys(chroma, runs, stretches.beats), posteriors };
}

/** 1 for each beat at which a run of one chord begins, else 0. */
function changesAtBeats(beatsSec: Seconds[], runs: ChordRun[], stretches: Stretches): number[] {
  const cuts = new Set(runs.slice(1).map((run) => stretches.edgesSec[run.from]!));
  return beatsSec.map((time) => (cuts.has(time) ? 1 : 0));
}
