import type { Seconds } from "@/lib/units/quantities";
import { CHORD_STATES } from "../chordVocabulary";
import { LEARNED_CHORDS } from "../harmonyParameters";
import { frameSec } from "./EarFeatures";
import type { LearnedEvidence } from "./LearnedEar";
import { CHORD_STEP_FRAMES } from "./layout";

/** Class of the network that stands for each state of CHORD_STATES. */
function classOfState(qualities: readonly string[]): number[] {
  return CHORD_STATES.map(({ chord }) => {
    if (!chord) return 12 * qualities.length;
    const quality = qualities.indexOf(chord.type.quality);
    if (quality < 0)
      throw new RangeError(`The learned ear knows no chords of quality "${chord.type.quality}".`);
    return chord.root * qualities.length + quality;
  });
}

/** What the network hears in one stretch of the record. */
export interface StretchPosterior {
  /** Mean log probability of each state of CHORD_STATES. */
  chords: Float64Array;
  /** Mean probability of each pitch class in the bass, from C, then of none. */
  bass: Float64Array;
}

/** Means over the chord steps in each stretch between neighbouring times, each step by the time it shares. */
export function stretchPosteriors(
  { chordSteps: steps, qualities }: Pick<LearnedEvidence, "chordSteps" | "qualities">,
  edgesSec: readonly Seconds[],
): StretchPosterior[] {
  const classes = classOfState(qualities);
  const stepSec = frameSec(CHORD_STEP_FRAMES) - frameSec(0);
  // The network was taught the label of a step's third frame, so a change lies on average two frames before it.
  const startSec = frameSec(0);
  const floor = Math.log(LEARNED_CHORDS.floor);
  const result: StretchPosterior[] = [];
  for (let i = 0; i + 1 < edgesSec.length; i++) {
    const from = (edgesSec[i]! - startSec) / stepSec;
    const to = (edgesSec[i + 1]! - startSec) / stepSec;
    const chords = new Float64Array(CHORD_STATES.length);
    const bass = new Float64Array(13);
    let total = 0;
    for (let j = Math.max(0, Math.floor(from)); j < Math.min(steps.length, Math.ceil(to)); j++) {
      const share = Math.min(to, j + 1) - Math.max(from, j);
      if (share <= 0) continue;
      const step = steps[j]!;
      total += share;
      for (let s = 0; s < chords.length; s++) {
        chords[s]! += share * Math.max(floor, step.chords[classes[s]!]!);
      }
      for (let p = 0; p < bass.length; p++) bass[p]! += share * Math.exp(step.bass[p]!);
    }
    if (total > 0) {
      for (let s = 0; s < chords.length; s++) chords[s]! /= total;
      for (let p = 0; p < bass.length; p++) bass[p]! /= total;
    }
    result.push({ chords, bass });
  }
  return result;
}

/** Factors on the fit of the chroma and on the mean log probability of the network. */
export interface PoolWeights {
  signalWeight: number;
  networkWeight: number;
}

/** Adds two opinions on each state, both as log-likelihoods: a log-linear pool (C. Genest and J. Zidek, 1986). */
export function pooled(
  signal: readonly Float64Array[],
  network: readonly StretchPosterior[],
  { networkWeight, signalWeight }: PoolWeights = LEARNED_CHORDS,
): Float64Array[] {
  return signal.map((row, i) =>
    row.map((value, s) => signalWeight * value + networkWeight * network[i]!.chords[s]!),
  );
}
