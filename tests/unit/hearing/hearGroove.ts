import { Signal } from "@/lib/dsp/Signal";
import { type HeardBars, hearBars } from "@/lib/hearing/bars";
import { type BeatChain, chooseBeats } from "@/lib/hearing/beatLevel";
import { hearOnsets, hearPitchSpectra } from "@/lib/hearing/evidence";
import { beatCurves } from "@/lib/hearing/learned/beatCurves";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { beatEvidence } from "@/lib/hearing/novelty";
import { RATE_HZ } from "./band";

export interface HeardGroove {
  chain: BeatChain;
  bars: HeardBars;
  /** Times of the downbeats. */
  downbeatsSec: number[];
}

/** Beats and bars of the samples, by the signal alone or with a learned ear; no chords are heard. */
export function hearGroove(samples: Float32Array, ear: LearnedEar | null = null): HeardGroove {
  const signal = Signal.of(samples, RATE_HZ);
  const learned = ear?.listen(levelled(samples)) ?? null;
  const onsets = hearOnsets(signal);
  const curves = learned && beatCurves(learned, onsets.frameRateHz, onsets.all.length);
  const evidence = beatEvidence(onsets, hearPitchSpectra(signal, 0), curves);
  const chain = chooseBeats(evidence, samples.length / RATE_HZ);
  const bars = hearBars(
    chain.timesSec,
    evidence,
    chain.timesSec.map(() => 0),
  );
  const downbeatsSec = chain.timesSec.filter((_, i) => bars.inBar[i] === 1);
  return { chain, bars, downbeatsSec };
}

/** The learned ear takes records at a root-mean-square level of 0.1. */
function levelled(samples: Float32Array): Signal {
  const power = samples.reduce((sum, value) => sum + value * value, 0) / samples.length;
  const gain = 0.1 / Math.sqrt(power);
  return Signal.of(
    samples.map((value) => gain * value),
    RATE_HZ,
  );
}

/**
 * F-measure of beats with a window of 70 ms: the harmonic mean of the share of heard beats that are true and of true
 * beats that are heard (S. Dixon, "Evaluation of the audio beat tracking system BeatRoot", JNMR 36 (2007)). Beats
 * heard before the first and after the last true one are left out.
 */
export function beatFMeasure(trueSec: readonly number[], heardSec: readonly number[]): number {
  const near = (time: number, others: readonly number[]): boolean =>
    others.some((other) => Math.abs(other - time) <= 0.07);
  const asked = heardSec.filter((time) => time > trueSec[0]! - 0.1 && time < trueSec.at(-1)! + 0.1);
  const precision = asked.filter((time) => near(time, trueSec)).length / Math.max(1, asked.length);
  const recall = trueSec.filter((time) => near(time, asked)).length / trueSec.length;
  return precision + recall > 0 ? (2 * precision * recall) / (precision + recall) : 0;
}
